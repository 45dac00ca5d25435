"""Recipes made to measure: as many steps, panels or layers as are asked for. They have no errors."""

from collections.abc import Iterator


def with_steps(count: int) -> str:
    """A folded card that is measured again and again."""
    return _recipe(
        panels=2, layers=0, more=(
            f"  - {{title: Look {n}, piece: base, do: [{{note: Look at the card again.}}], "
            f"text: Look at the folded card again and rub out what can be seen of the pencil.}}\n"
            for n in range(count - 1)))


def with_panels(count: int) -> str:
    """A strip folded to and fro, all its panels alike."""
    return _recipe(panels=count, layers=0, more=(), wide=1)


def with_layers(count: int) -> str:
    """A card with mats in rows on its cover, all glued on in a step of their own."""
    return _recipe(panels=2, layers=count, more=())


def _recipe(*, panels: int, layers: int, more: Iterator[str] | tuple[()], wide: int = 12) -> str:
    tall = 12 if wide == 12 else 3 / 2  # inches, and `wide` is each panel's; the sheet is a roll
    mats = [f"m{n}" for n in range(layers)]
    places = [(1 + n % 10, 1 + n // 10) for n in range(layers)]
    lines = [
        "title: Grown", "unit: inch", f"finished: {{size: [{wide}, {tall:g}]}}", "papers:",
        "  slate:", "    {kind: cardstock, weight: 80 lb cover, thickness: 0.01 in,",
        f"    sheet: [{wide * panels + 1}, {tall + 1:g}]}}",
        "pieces:", "  base:", "    paper: slate", f"    size: [{wide * panels}, {tall:g}]", "    scores:",
        *(f"      s{n}: {{across: {wide * n}, fold: {'valley' if n % 2 else 'mountain'}}}" for n in range(1, panels)),
        "    panels:",
        *(f"      p{n}: [{wide * n + wide / 2:g}, {tall / 2:g}]" for n in range(panels)),
    ]
    if mats:
        lines += ["layers:", *(
            f"  {name}: {{paper: slate, size: [3/4, 3/4], upon: p0 front, at: {{left: {x}, bottom: {y}}}, "
            f"adhesive: glue stick}}" for name, (x, y) in zip(mats, places, strict=True))]
    folds = ", ".join(f"s{n}: {180 if n % 2 else -180}" for n in range(1, panels))
    lines += [
        "poses:", f"  closed: {{still: p0, folds: {{{folds}}}}}", "tools: {trimmer: {}, scoring board: {}}",
        "supplies: {glue stick: {kind: glue stick}}" if mats else "supplies: {}",
        "steps:", "  - title: Cut and score", "    id: base", "    piece: base", "    tools: [trimmer, scoring board]",
        "    do:", f"      - cut: [{wide * panels}, {tall:g}]", "      - lay: {edge: long, up: front}",
        *(f"      - score: {wide * n}" for n in range(1, panels)),
        "    text: Cut the base, score it and fold it.",
    ]
    for name, (x, y) in zip(mats, places, strict=True):
        lines += [
            f"  - title: Mat {name}", f"    piece: {name}", "    tools: [trimmer]", "    supplies: [glue stick]",
            "    do:", "      - cut: [3/4, 3/4]",
            f"      - attach: {{what: {name}, left: {x}, bottom: {y}, with: glue stick}}",
            "    text: Cut a mat and glue it on.",
        ]
    return "\n".join(lines) + "\n" + "".join(more)
