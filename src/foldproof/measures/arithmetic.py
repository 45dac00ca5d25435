"""Sums over measures: kinds kept apart, every step exact."""

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction

from foldproof.frozen import dataclass
from foldproof.measures.quantity import Kind, Quantity, Unit
from foldproof.measures.scanning import Sort, Token, scan
from foldproof.measures.trouble import Trouble, two_slashes
from foldproof.measures.units import SHORT_NAME, kind_of_unit

DEEPEST = 25
"""How many brackets and signs may stand inside one another."""

_A = {Kind.LENGTH: "a length", Kind.NUMBER: "a plain number", Kind.ANGLE: "an angle", Kind.TIME: "a time",
      Kind.MONEY: "money"}


def a_kind(kind: Kind) -> str:
    """Name a kind in a sentence: `a length`, `a plain number`."""
    return _A[kind]


@dataclass(frozen=True, slots=True, kw_only=True)
class Worth:
    """What a part of the text comes to."""

    value: Fraction
    """A length in the recipe's unit; an angle in degrees; a time in seconds."""
    kind: Kind
    start: int
    end: int
    bare: bool = False
    """One number with no unit (signs and brackets allowed): its slot may give it a unit."""
    figures_only: bool = False
    """No name and no unit anywhere in it."""
    currency: str | None = None


def work_out(text: str, names: Mapping[str, Quantity], unit: Unit) -> tuple[Worth, tuple[str, ...]]:
    """Work out a text exactly; also give the names it mentions, in order of first mention. Raises Trouble."""
    tokens = scan(text, names)
    if not tokens:
        raise Trouble("measure missing", "Nothing is written here.", "Write a measure, such as 5 1/2 in.", 0, len(text))
    work = _Work(text=text, tokens=tokens, names=names, unit=unit)
    worth = work.sum(0)
    if work.at < len(tokens):
        raise work.left_over()
    return worth, tuple(dict.fromkeys(token.text for token in tokens if token.sort is Sort.NAME))


@dataclass(slots=True, kw_only=True)
class _Work:
    text: str
    tokens: tuple[Token, ...]
    names: Mapping[str, Quantity]
    unit: Unit
    at: int = 0

    def peek(self, *signs: str) -> bool:
        if self.at >= len(self.tokens):
            return False
        token = self.tokens[self.at]
        return token.sort is Sort.SIGN and token.text in signs

    def take(self) -> Token:
        self.at += 1
        return self.tokens[self.at - 1]

    def sum(self, depth: int) -> Worth:
        worth = self.product(depth)
        while self.peek("+", "-"):
            sign = self.take()
            worth = self.add(worth, self.product(depth), sign)
        return worth

    def product(self, depth: int) -> Worth:
        worth = self.factor(depth)
        while self.peek("*", "/"):
            sign = self.take()
            if sign.text == "/" and self.at < len(self.tokens) and self.tokens[self.at].plain_fraction:
                token = self.tokens[self.at]
                raise two_slashes(token.text, sign.start, token.end)
            right = self.factor(depth)
            worth = self.times(worth, right) if sign.text == "*" else self.over(worth, right)
        return worth

    def factor(self, depth: int) -> Worth:
        if depth > DEEPEST:
            token = self.tokens[min(self.at, len(self.tokens) - 1)]
            raise Trouble("measure too deep", f"More than {DEEPEST} brackets or signs stand inside one another.",
                          "Name a part of it as a measure of its own.", token.start, token.end)
        if self.peek("+", "-"):
            sign = self.take()
            worth = self.factor(depth + 1)
            return replace(worth, value=-worth.value if sign.text == "-" else worth.value, start=sign.start)
        if self.at >= len(self.tokens):
            last = self.tokens[-1]
            raise Trouble("measure can't be read", f"Something is missing after `{last.text}`.",
                          "Write the measure that belongs there, or take the sign away.", last.start, last.end)
        if self.peek("("):
            return self.bracket(depth)
        token = self.take()
        if token.sort is Sort.NAME:
            known = self.names[token.text]
            return Worth(value=known.value, kind=known.kind, start=token.start, end=token.end, currency=known.currency)
        if token.sort is Sort.NUMBER:
            return self.literal(token)
        if token.sort is Sort.CURRENCY and self.at < len(self.tokens) and self.tokens[self.at].sort is Sort.NUMBER:
            amount = self.take()
            return Worth(value=amount.value, kind=Kind.MONEY, start=token.start, end=amount.end, currency=token.text)
        if token.text == ")":
            raise _not_opened(token)
        raise Trouble("measure can't be read", f"A measure is missing before `{token.text}`.",
                      "Write the measure that belongs there.", token.start, token.end)

    def bracket(self, depth: int) -> Worth:
        opening = self.take()
        worth = self.sum(depth + 1)
        if not self.peek(")"):
            raise (self.left_over() if self.at < len(self.tokens) else
                   Trouble("bracket not closed", "This bracket is opened and never closed.", "Add a closing bracket.",
                           opening.start, opening.end))
        worth = replace(worth, start=opening.start, end=self.take().end)
        if self.at < len(self.tokens) and self.tokens[self.at].sort is Sort.UNIT:
            return self.with_unit(worth, self.take())
        return worth

    def literal(self, token: Token) -> Worth:
        worth = _figure(token)
        if self.at < len(self.tokens) and self.tokens[self.at].sort is Sort.CURRENCY:
            sign = self.take()
            return replace(worth, kind=Kind.MONEY, bare=False, figures_only=False, end=sign.end, currency=sign.text)
        if self.at >= len(self.tokens) or self.tokens[self.at].sort is not Sort.UNIT:
            return worth
        worth = self.with_unit(worth, self.take())
        while self.at + 1 < len(self.tokens) and (
            self.tokens[self.at].sort is Sort.NUMBER and self.tokens[self.at + 1].sort is Sort.UNIT
        ):
            worth = self.compound(worth)
        return worth

    def compound(self, worth: Worth) -> Worth:
        """Join `1 h` and `30 min`, `1 ft` and `6 in`: the second is less than one of the first's unit."""
        larger = kind_of_unit(self.tokens[self.at - 1].text)
        number, unit = self.take(), self.take()
        smaller = kind_of_unit(unit.text)
        part = self.with_unit(_figure(number), unit)
        assert larger is not None and smaller is not None
        if larger[0] is not smaller[0] or number.value * smaller[1] >= larger[1]:
            both = self.text[worth.start:part.end]
            raise Trouble("two measures side by side", f"`{both}` is two measures with nothing between.",
                          "Write + between them to add, or a list for a size: [8 1/2, 11].", worth.start, part.end)
        return replace(worth, value=worth.value + part.value, end=part.end)

    def with_unit(self, worth: Worth, token: Token) -> Worth:
        found = kind_of_unit(token.text)
        assert found is not None, "only known units become tokens"
        if worth.kind is not Kind.NUMBER:
            raise Trouble("unit given twice", f"The brackets hold {a_kind(worth.kind)}, which has its unit already.",
                          f"Take `{token.text}` away.", token.start, token.end)
        kind, size = found
        scale = size / self.unit.millimetres if kind is Kind.LENGTH else size
        return replace(worth, value=worth.value * scale, kind=kind, end=token.end, bare=False, figures_only=False)

    def add(self, left: Worth, right: Worth, sign: Token) -> Worth:
        if left.kind is not right.kind:
            raise self.mixed(left, right, sign)
        if left.currency != right.currency:
            raise Trouble("currencies mixed", f"{left.currency} and {right.currency} can't be added without a rate.",
                          "Give both in one currency.", left.start, right.end)
        value = left.value + right.value if sign.text == "+" else left.value - right.value
        return Worth(value=value, kind=left.kind, figures_only=left.figures_only and right.figures_only,
                     currency=left.currency, start=left.start, end=right.end)

    def mixed(self, left: Worth, right: Worth, sign: Token) -> Trouble:
        number = left if left.kind is Kind.NUMBER else right
        does = "added to" if sign.text == "+" else "taken from"
        message = f"{a_kind(right.kind).capitalize()} can't be {does} {a_kind(left.kind)}."
        mend = "Use measures of one kind on both sides."
        if number.kind is Kind.NUMBER and Kind.LENGTH in (left.kind, right.kind):
            written = self.text[number.start:number.end]
            message += f" In a sum a number without a unit, like {written}, is a plain number."
            if number.bare:
                mended = f"{self.text[:number.end]} {SHORT_NAME[self.unit]}{self.text[number.end:]}"
                mend = f"Give the number its unit: {mended.strip()}"
        return Trouble("kinds mixed", message, mend, left.start, right.end)

    def times(self, left: Worth, right: Worth) -> Worth:
        if Kind.NUMBER not in (left.kind, right.kind):
            if left.kind is right.kind is Kind.LENGTH:
                raise Trouble("length times length", "A length times a length is an area; a length is wanted.",
                              "Multiply by a plain number (2 * width). A size is a list: [8 1/2, 5 1/2].",
                              left.start, right.end)
            kinds = f"{a_kind(left.kind).capitalize()} can't be multiplied by {a_kind(right.kind)}."
            raise Trouble("kinds mixed", kinds, "Multiply by a plain number.", left.start, right.end)
        whole = right if left.kind is Kind.NUMBER else left
        return Worth(value=left.value * right.value, kind=whole.kind, currency=left.currency or right.currency,
                     figures_only=left.figures_only and right.figures_only,
                     start=left.start, end=right.end)

    def over(self, left: Worth, right: Worth) -> Worth:
        if right.kind is not Kind.NUMBER and right.kind is not left.kind:
            raise Trouble("kinds mixed", f"{a_kind(left.kind).capitalize()} can't be divided by {a_kind(right.kind)}.",
                          "Divide by a plain number, or a length by a length.", left.start, right.end)
        if right.value == 0:
            zero = self.text[right.start:right.end]
            raise Trouble("divided by zero", f"`{zero}` is 0, and nothing can be divided by 0.",
                          "Divide by something other than 0.", right.start, right.end)
        same = right.kind is left.kind
        return Worth(value=left.value / right.value, kind=Kind.NUMBER if same else left.kind,
                     currency=None if same else left.currency, figures_only=left.figures_only and right.figures_only,
                     start=left.start, end=right.end)

    def left_over(self) -> Trouble:
        before, token = self.tokens[self.at - 1], self.tokens[self.at]
        pair = (before.start, token.end)
        if token.text == ")":
            return _not_opened(token)
        if before.sort is Sort.NUMBER and (token.sort is Sort.NAME or token.text == "("):
            return Trouble("sign missing", f"Nothing stands between `{before.text}` and `{token.text}`.",
                           f"To multiply, write {before.text} * {self.text[token.start:].strip()}", *pair)
        if before.sort is Sort.NUMBER and token.sort is Sort.NUMBER:
            return Trouble("two measures side by side", f"`{before.text}` and `{token.text}` stand side by side.",
                           "Write a fraction with no space at its slash (5 1/2), or a sign between two numbers.", *pair)
        return Trouble("two measures side by side", f"Nothing stands between `{before.text}` and `{token.text}`.",
                       "Write + - * or / between them. A size is a list: [8 1/2, 11].", *pair)


def _figure(token: Token) -> Worth:
    return Worth(value=token.value, kind=Kind.NUMBER, start=token.start, end=token.end, bare=True, figures_only=True)


def _not_opened(token: Token) -> Trouble:
    return Trouble("bracket not opened", "This bracket closes nothing.", "Take it away, or open one before it.",
                   token.start, token.end)
