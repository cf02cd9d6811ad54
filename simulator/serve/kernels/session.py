"""What a kernel knows about its page: who is looking, and at which visit."""

import os
import re
from dataclasses import dataclass
from urllib.parse import parse_qs

_TOKEN = re.compile(r"[A-Za-z0-9_-]{8,64}")
SERVED = "BENCHCALL_SERVED"
TRAINEE = "HTTP_X_BENCHCALL_TRAINEE"
LANGUAGE = "HTTP_X_BENCHCALL_LANGUAGE"


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """The page that a kernel was started for.

    Parameters
    ----------
    trainee : str
        The browser's own random name; empty in a free notebook.
    visit : str or None
        Token of the visit in the page's address; None without a well-formed one.
    is_served : bool
        Whether our own server started this kernel. A free kernel can read
        anything, so nothing done in one counts as an assessment.
    language : str
        Code of the language the page is said in.
    """

    trainee: str
    visit: str | None
    is_served: bool
    language: str = "en"


def page() -> Page:
    """Read what the server told this kernel about its page.

    Returns
    -------
    Page
        From the address and the cookie, both checked for form only.
    """
    asked = parse_qs(os.environ.get("QUERY_STRING", "")).get("visit", [""])[-1]
    return Page(
        trainee=os.environ.get(TRAINEE, ""),
        visit=asked if is_token(asked) else None,
        is_served=os.environ.get(SERVED) == "yes",
        language=os.environ.get(LANGUAGE, "en"),
    )


def is_token(text: str) -> bool:
    """Whether a text has the form of a visit or trainee token.

    Parameters
    ----------
    text : str
        From an address or a cookie, so anything at all.

    Returns
    -------
    bool
        Form only; the token may still name nothing.
    """
    return _TOKEN.fullmatch(text) is not None


def begin_page() -> Page:
    """Start watching the line to the browser, and say which page this is.

    Called once at the top of every page; it shows the banner that appears
    when the kernel can no longer be reached.

    Returns
    -------
    Page
        As `page`.
    """
    from IPython.display import display

    from simulator.serve.kernels.heartbeat import Heartbeat
    from simulator.words.catalogue import catalogue

    here = page()
    display(Heartbeat(catalogue(here.language)))  # type: ignore[no-untyped-call]
    return here
