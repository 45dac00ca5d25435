"""Every check of the finished plan and its making: what it may report, and the function that looks."""

from collections.abc import Callable, Iterable

from foldproof.checks import (
    counts,
    envelope,
    finished,
    glue,
    layers,
    listing,
    marks,
    motion,
    necks,
    panels,
    pattern,
    poses,
    post,
    pressing,
    prose,
    sheets,
    sight,
    slides,
    summary,
    things_counted,
    tools,
    words_of_caution,
)
from foldproof.checks.check import Check
from foldproof.checks.directions import check as directions
from foldproof.findings.finding import Finding
from foldproof.folding.card import Card
from foldproof.making.table import Making

Look = Callable[[Card, Making], Iterable[Finding]]

CATALOGUE: tuple[tuple[Look, tuple[Check, ...]], ...] = (
    (poses.check_closed, (poses.NO_CLOSED, poses.OPENS_ELSEWHERE)),
    (poses.check_scores_fold, (poses.NEVER_FOLDS,)),
    (motion.check_motion, (motion.PASSES, motion.STIFF, motion.GAVE_UP)),
    (finished.check_size, (finished.WRONG_SIZE,)),
    (finished.check_meetings, (finished.WRONG_MEETING, finished.NO_MEETING)),
    (finished.check_unnamed, (finished.UNNAMED_GAP, finished.UNNAMED_OVERLAP)),
    (finished.check_standing, (finished.WRONG_HEIGHT, finished.NOT_STANDING)),
    (layers.check_lie, (layers.OUTSIDE, layers.TOO_FAR, layers.NO_OVERHANG, layers.BRIDGES)),
    (layers.check_borders, (layers.UNEVEN, layers.SIDE_BORDERS)),
    (sight.check_caught, (sight.CAUGHT,)),
    (sight.check_sight, (sight.HIDDEN, sight.SHOWN)),
    (glue.check_glue, (glue.ACROSS, glue.PAST)),
    (necks.check_necks, (necks.THIN,)),
    (slides.check_slides, (
        slides.JAMS, slides.TIGHT, slides.NO_POCKET, slides.TOO_SHORT, slides.TOO_LOOSE, slides.HITS, slides.OFF_PAPER,
        slides.NOT_SLID)),
    (sheets.check_sheets, (sheets.TOO_SMALL,)),
    (pattern.check_upright, (pattern.NOT_UPRIGHT,)),
    (pattern.check_printed_face, (pattern.PRINT_HIDDEN,)),
    (panels.check_inner_panels, (panels.BUCKLES,)),
    (panels.check_grain, (panels.GRAIN,)),
    (envelope.check_envelope, (envelope.UNKNOWN, envelope.TOO_BIG, envelope.TIGHT)),
    (post.check_weights, (post.WEIGHT,)),
    (post.check_post, (post.COSTS_MORE,)),
    (listing.check_used, (listing.NOT_USED, listing.PAPER_NOT_USED)),
    (listing.check_lengths, (listing.TOO_SHORT,)),
    (listing.check_adhesive, (listing.NO_ADHESIVE,)),
    (listing.check_tools, (listing.NO_CUTTER, listing.NO_SCORER, listing.NO_DIE)),
    (tools.check_tools_of_steps, (tools.NOT_IN_STEP,)),
    (tools.check_named, (tools.NOT_LISTED,)),
    (marks.check_marks, (marks.NOT_USED,)),
    (pressing.check_pressed_face, (pressing.OUTSIDE, pressing.LESS_GOOD)),
    (pattern.check_lettering, (pattern.LETTERING,)),
    (words_of_caution.check_cautions, (words_of_caution.NO_CAUTION,)),
    (prose.check_words, (prose.WRONG_NUMBER, prose.SWAPPED, prose.WRONG_CONVERSION, prose.UNSAID)),
    (directions.check_directions,
     (directions.WRONG_DIRECTION, directions.NO_SUCH_TURN, directions.TURN_UNSAID, directions.NOT_ALL)),
    (counts.check_counts, (counts.WRONG_COUNT,)),
    (things_counted.check_things_counted, ()),
    (summary.check_summary, (summary.NOT_THE_CARDS,)),
)
"""In the order in which the findings are reported."""

CHECKS: tuple[Check, ...] = tuple(check for _, checks in CATALOGUE for check in checks)


def run_checks(card: Card, making: Making) -> tuple[Finding, ...]:
    """The making's own findings, then those of every check, all of them."""
    return (*making.findings, *(finding for look, _ in CATALOGUE for finding in look(card, making)))
