"""What to do at the next call where most was lost at this one: about the task, never the person."""

from collections.abc import Mapping

# By part of the scorecard.
NEXT_TIME: Mapping[str, str] = {
    "Interview and complaint": "Next time ask what changed, when and in which rooms before the "
    "first tool comes out.",
    "Safety": "Next time look for what can hurt at each place before hands go in.",
    "Measuring": "Next time take each number the careful way and let the system settle first: a "
    "few that can be trusted tell more than many that cannot.",
    "Evidence": "Next time go on until one cause stands well above its rivals, and cite the "
    "readings that put it there.",
    "Efficiency": "Next time begin with the reading that tells most for its minutes.",
    "Diagnosis": "Next time ask of each reading whether the finding explains it: what is left "
    "over is a second cause or a wrong one.",
    "Repair and no harm": "Next time mend what the readings show, and leave alone what they do "
    "not.",
    "Re-test": "Next time measure again at the same points, settled, before you leave.",
    "Customer and record": "Next time leave the customer what was found and done, with the "
    "readings before and after.",
}
OTHERWISE = (
    "Next time begin with the part of the work that lost most here; its reasons stand below."
)
