"""YAML's traps for people who are no programmers: what went wrong, in words, and a mended copy to read on from."""


import yaml

from foldproof.findings.finding import Finding, Place, Severity


def repair(source: str, error: yaml.YAMLError, file: str) -> tuple[str, Finding] | None:
    """Report the trap on the line of an error and mend it in a copy; None where no trap is known there."""
    return None


def explain(source: str, error: yaml.YAMLError, file: str) -> Finding:
    """An error of the text that no known trap explains."""
    mark = getattr(error, "problem_mark", None)
    place = Place(file=file, line=mark.line + 1 if mark else 1, column=mark.column + 1 if mark else 1)
    return Finding(name="text not readable", severity=Severity.ERROR, message=str(getattr(error, "problem", error)),
                   place=place)


def lost_words(source: str, file: str) -> tuple[Finding, ...]:
    """Words after a # that YAML drops as a comment though they look meant."""
    return ()
