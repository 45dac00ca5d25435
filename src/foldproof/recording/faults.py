"""What can be wrong with a recording's files: each fault by its name, how much it matters, and what it means."""

from foldproof.checks.check import advice, error, warning

EMPTY = error("no times", "The times file is empty or gives no step a time.")
UNREADABLE = error("row can't be read", "A row of the times file has no time, or no name, or neither.")
BAD_TIME = error("time can't be read", "A time is not written as h:mm:ss, m:ss or seconds.")
UNKNOWN_STEP = error("unknown step", "A row of the times file names no step of the recipe.")
TWICE = error("step timed twice", "A step, or the length, has two rows in the times file.")
BACKWARDS = error(
    "times run backwards", "A step begins before, or together with, one that comes earlier in the recipe."
)
PAST_END = error("past the end of the recording", "A time is at or past the length of the recording.")
NO_LENGTH = error("length of the recording missing", "The times file does not say how long the recording is.")
BAD_ADDRESS = error("address can't be used", "The address of the recording is no http or https address.")
BY_NUMBER = advice(
    "steps named by number alone",
    "Times that are kept beside a recipe name steps by number: a new step would shift them.",
)
CHANGED = warning(
    "step changed since it was filmed", "A step of the recipe is not as it was when its time was written down."
)
HARD_CHAPTERS = advice(
    "chapters that may not show", "There are so few chapters, or so short ones, that players may pass."
)
NO_CAPTIONS = warning("line too long for its step", "A line could not be read in the time that its step lasts.")
NO_INTERVAL = advice("steps without captions", "When these steps begin or end is not known, so they get no captions.")
NOT_CAPTIONS = error("not a caption file", "The file of what was said is neither WebVTT nor SRT.")
BAD_CUE = error("caption can't be read", "A caption has a broken time line, or ends before it begins.")
CUES_BACKWARDS = error("captions run backwards", "A caption begins before the one above it.")
FAST_CAPTIONS = advice("captions too fast to read", "Captions of what was said are faster than people read.")
WRONG_SAID = warning(
    "wrong number said on camera", "A number that is said in the recording is not the number of the step that is shown."
)
EVERY = (
    EMPTY,
    UNREADABLE,
    BAD_TIME,
    UNKNOWN_STEP,
    TWICE,
    BACKWARDS,
    PAST_END,
    NO_LENGTH,
    BAD_ADDRESS,
    BY_NUMBER,
    CHANGED,
    HARD_CHAPTERS,
    NO_CAPTIONS,
    NO_INTERVAL,
    NOT_CAPTIONS,
    BAD_CUE,
    CUES_BACKWARDS,
    FAST_CAPTIONS,
    WRONG_SAID,
)
