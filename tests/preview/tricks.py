"""The quick card with known tricks in its every word.

The tricks are the usual ones of HTML, attributes, addresses, JSON in scripts, SVG, style sheets, templates,
spreadsheets and typesetting (from memory; the classes are those of the OWASP cheat sheets on cross-site scripting and
CSV injection).
"""

from itertools import cycle

import yaml

RAN = "window.ran=1"
TRICKS = (
    f"<script>{RAN}</script>", f"</script><script>{RAN}</script>", f"<img src=x onerror={RAN}>",
    f"\"><svg onload={RAN}>", f"' onmouseover='{RAN}", f"[press](javascript:{RAN})",
    f"<svg><script>{RAN}</script></svg>",
    "![](http://outside.example/p.png)", "[x](data:text/html,<script>window.ran=1</script>)", "[x](file:///etc/passwd)",
    "<http://outside.example/\"onclick=\"window.ran=1>", "]]><!-- --!><style>@import 'http://outside.example/s.css';",
    "</title></style></textarea></svg></text><iframe src=//outside.example>", "<base href=http://outside.example/>",
    "&lt;script&gt;window.ran=1&lt;/script&gt;", "<a href=\"java&#10;script:window.ran=1\">", "\\\"-window.ran=1//",
    "</script><!--<script>", "$\\frac12 $x^$ \\begin %s %n", "<%= 7*7 %>", "<!ENTITY x SYSTEM 'file:///etc/passwd'>",
    "`</code>`<object data=//outside.example>", "<details open ontoggle=window.ran=1>", "<xlink:href='javascript:1'>",
    "url(http://outside.example/u)", "<math><mtext></form><form><mglyph><style></math><img src onerror=window.ran=1>",
)
FORMULAS = ("=HYPERLINK(\"http://outside.example\")", "+1+cmd|' /C calc'!A0", "-2+3", "@SUM(1+1)", " =1+1")


def recipe_of_tricks(text: str) -> str:
    """The quick card with tricks at the end of every sentence, and formulas at the start of what tables hold."""
    recipe = yaml.safe_load(text)
    tricks = cycle(TRICKS)
    recipe["title"] = f"={next(tricks)} {next(tricks)} {next(tricks)} {{{{ 7*7 }}}} {{% raw %}} ${{7*7}}"
    recipe["summary"] = f"{next(tricks)} {next(tricks)}"
    recipe["skill"] = next(tricks)
    recipe["published"] = "https://cards.example.org/a'b(c)/page.html"
    papers = recipe["papers"]
    names = {"slate": "s' onload='window.ran=1' x='", "waves": "w (window.ran=1) $x_2$ %n"}
    for paper in papers.values():
        paper["kind"] += f" {next(tricks)}"
    recipe["papers"] = {names[name]: paper for name, paper in papers.items()}
    recipe["pieces"]["base"]["paper"], recipe["layers"]["mat"]["paper"] = names["slate"], names["waves"]
    recipe["supplies"]["wet glue"]["amount"] = f"={next(tricks)}"
    recipe["tools"]["trimmer"] = {"caution": next(tricks)}
    recipe["class"] = {
        "people": 4, "paper packs": {names["slate"]: {
            "holds": 5, "price": "4.00 USD", "called": f"={next(tricks)}", "link": "https://example.org/?a=1&b='",
            "substitute": f"={next(tricks)}"}}}
    formulas = cycle(FORMULAS)
    for step in recipe["steps"]:
        step["title"] = f"{next(formulas)} {next(tricks)}"
        step["text"] += "".join(f" Now {trick}." for trick in TRICKS)
        step["say"] = f"{next(formulas)} {step.get('say', step['title'])} {next(tricks)}"
        step["say"] = step["say"].replace("-2+3", "").replace("+1+", "").replace("1+1", "")
        step["tip"] = f"{next(tricks)} {next(tricks)}"
        step["caution"] = next(tricks)
        step["corrections"] = [{"day": "2026-03-01", "text": f"{next(tricks)} {next(tricks)}"}]
    return str(yaml.safe_dump(recipe, sort_keys=False, allow_unicode=True))
