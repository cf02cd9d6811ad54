"""Catalogues: complete, readable, quick, and fallen back from.

No outside source but the PO format of GNU gettext.
"""

import re
import time

import pytest

from simulator.calls import call_file
from simulator.words import __main__ as renewing
from simulator.words import po
from simulator.words.catalogue import Catalogue, catalogue, languages
from simulator.words.gathering.page_words import cannot_be_translated
from simulator.words.gathering.python_words import texts
from simulator.words.gathering.source_tree import messages, scripts
from simulator.words.sentences import HOLE

FILES = sorted(renewing.FOLDER.glob("*.po"))


def test_the_template_is_what_the_source_says() -> None:
    """After a change of texts: ``python -m simulator.words``."""
    kept = renewing.TEMPLATE.read_text(encoding="utf-8")
    missing = set(messages()) - set(re.findall(r'^msgid "(.*)"$', kept, re.MULTILINE))
    assert {text for text in missing if not re.search(r'["\\\n]', text)} == set()
    assert kept == renewing.template()


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_a_catalogue_follows_the_template(path: object) -> None:
    text = path.read_text(encoding="utf-8")  # type: ignore[attr-defined]
    assert text == renewing.renewed(text)
    assert po.header(text)["X-Own-Name"]
    for message, other in po.read(text).items():
        assert message == "" or set(HOLE.findall(other)) <= set(HOLE.findall(message)), message


@pytest.mark.parametrize("path", scripts(), ids=lambda path: path.parent.name)
def test_scripts_keep_whole_texts(path: object) -> None:
    assert cannot_be_translated(path.read_text(encoding="utf-8")) == []  # type: ignore[attr-defined]


def test_a_text_put_together_in_a_script_is_found() -> None:
    assert cannot_be_translated("at: (n) => `min ${n}`,")


def test_a_file_is_read_as_it_was_written() -> None:
    said = {'He said "no"': "Dijo «no»", "two\nlines": "dos\nlíneas", "back\\slash": "barra\\i"}
    text = po.written({"Language": "es"}, {message: {"a.py"} for message in said}, said)
    assert {key: value for key, value in po.read(text).items() if key} == said
    assert po.header(text) == {"Language": "es"}


def test_wrapped_and_doubtful_entries() -> None:
    text = 'msgid ""\n"a "\n"b"\nmsgstr "c"\n\n#, fuzzy\nmsgid "d"\nmsgstr "e"\n'
    assert po.read(text) == {"a b": "c"}


def test_sentences_are_recognised_by_their_words() -> None:
    words = Catalogue("es", {
        "Waited {minutes} min.": "Esperó {minutes} min.",
        "First: {name}.": "Primero: {name}.",
        "Zero the manometer": "Ponga a cero el manómetro",
        "Thermostat": "Termostato",
    })  # fmt: skip
    assert words.say("Waited 12 min.") == "Esperó 12 min."
    assert words.say("First: Zero the manometer.") == "Primero: Ponga a cero el manómetro."
    assert words.say("thermostat") == "termostato"
    assert words.say("Nobody knows this.") == "Nobody knows this."
    assert words.say("Thermostat: 76 °F") == "Termostato: 76 °F"


def test_a_name_with_a_comma_stays_whole_in_a_list() -> None:
    words = Catalogue("xx", {"Bulb loose, or bare": "A", "Line too long": "B", "{n} more": "{n} C"})
    assert words.say("bulb loose, or bare, line too long, 4 more") == "a, b, 4 C"
    assert words.say("line too long, bulb loose, or bare") == "b, a"


def test_a_short_word_between_two_holes_recognises_nothing() -> None:
    words = Catalogue(
        "es", {"{told} at {told_2}": "{told} a {told_2}", "Off {since}.": "No {since}."}
    )
    assert words.say("Split at the air handler") == "Split at the air handler"
    assert words.say("Off since noon.") == "No since noon."


def test_english_stands_for_a_language_that_is_not_there() -> None:
    assert catalogue("xx").say("Attic") == "Attic"
    assert next(iter(languages())) == "en"


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_it_is_ready_at_once(path: object) -> None:
    """A page may lose no time to words; the bar is our own."""
    text = path.read_text(encoding="utf-8")  # type: ignore[attr-defined]
    took = []
    for _ in range(5):
        begun = time.process_time()
        Catalogue("es", po.read(text))
        took.append(time.process_time() - begun)
    assert min(took) < 0.05


def test_texts_of_a_source_are_told_from_its_codes() -> None:
    source = '''
"""No text for people."""
def f(n):
    """Nor this."""
    raise ValueError("Nor this one.")
    return {"code": "low_side", "text": f"Only {n:.0f} min left.", "more": "Said to people."}
'''
    assert texts(source) == ["Only {n} min left.", "Said to people."]


def test_a_version_of_a_call_is_told_in_the_language_of_the_call() -> None:
    """Words are looked up without their numbers, which stand where the call's stood."""
    spanish = catalogue("es")
    mine = call_file.load("mallorn").answers["read_bill"]
    other = mine.replace("1,257 kWh, $194", "1,249 kWh, $193").replace("1,647", "1,640")
    said = spanish.say(other)
    assert said == spanish.say(mine).replace("1,257 kWh, $194", "1,249 kWh, $193").replace(
        "1,647", "1,640"
    )
    assert "año" in said
    assert spanish.say(mine.replace("degree", "day").replace("Degree", "Day")) != said


def test_spanish_is_complete() -> None:
    """Who adds a text adds its Spanish; a language that is begun later may have gaps."""
    said = po.read((renewing.FOLDER / "es.po").read_text(encoding="utf-8"))
    assert [message for message in messages() if not said.get(message)] == []


def test_what_only_a_program_reads_is_no_text() -> None:
    source = """
def f() -> "Session":
    Thread(target=f, name="waits for it")
    return {"a": r"/class/([A-Z]{4,12})", "b": "Accept-Language", "c": "Read it. Then go."}
"""
    assert texts(source) == ["Read it. Then go."]


def test_a_sentence_is_not_lost_in_the_hole_of_another() -> None:
    words = Catalogue("xx", {
        "{name} at minute {minute}.": "{name} MIN {minute}.",
        "{name} at minute {minute} cannot judge.": "{name} MIN {minute} NEIN.",
        "It was off.": "AUS.", "Hole": "LOCH",
    })  # fmt: skip
    assert words.say("Hole at minute 3 cannot judge. It was off.") == "LOCH MIN 3 NEIN. AUS."
    assert words.say("hole at minute 3.") == "lOCH MIN 3."


def test_names_with_signs_of_their_own_stay_whole() -> None:
    words = Catalogue("xx", {
        "None: coil iced over": "A", "Hole at 25 Pa: the hole, not the rest": "B", "or": "OR",
        "the {what}": "{what}", "Put on, then go": "C", "Panel": "D", "Fine now.": "E.",
    })  # fmt: skip
    assert words.say("None: coil iced over, panel") == "A, d"
    assert words.say("Hole at 25 Pa: the hole, not the rest: 38 cfm") == "B: 38 cfm"
    assert words.say("Put on, then go (Panel).") == "C (D)."
    assert words.say("put on, then go or panel") == "c OR d"
    assert words.say('panel: "Fine now."') == 'd: "E."'
    assert words.say(" Fine now.") == " E."


def test_figures_stand_beside_names_and_in_short_sentences() -> None:
    words = Catalogue("xx", {
        "supply plenum": "PLENUM", "clean filters": "FILTER",
        "{told} at {told_2}": "{told} BEI {told_2}", "{a} of {b} found": "{a} VON {b}",
    })  # fmt: skip
    assert words.say("1,200 cfm at 0.48 in wc") == "1,200 cfm BEI 0.48 in wc"
    assert words.say("Split at the coil") == "Split at the coil"
    assert words.say("supply plenum 61 °F and 78 gr/lb") == "PLENUM 61 °F and 78 gr/lb"
    assert words.say("12 clean filters") == "12 FILTER"
    assert words.say("1 of 7 found. Go on.") == "1 VON 7. Go on."
    assert words.say("three rooms") == "three rooms"


def test_a_count_is_a_number() -> None:
    words = Catalogue("xx", {
        "{more} more": "{more} C", "Hand and smoke": "A", "Here, no more.": "B", "Left": "L",
        "{said} at minute {minute}": "{said} MIN {minute}",
    })  # fmt: skip
    assert words.say("Hand and smoke: Here, no more.") == "A: B"
    assert words.say("left, 4 more") == "l, 4 C"
    assert words.say("left at minute 12") == "l MIN 12"
