"""Nothing is read outside the recipe's folder, the theme and the fonts: one test for each way that leads out."""

import os
from collections.abc import Callable
from pathlib import Path

import pytest

from foldproof.cli import main
from foldproof.documents.printing import to_pdf
from foldproof.documents.theme import Theme, load_theme, read_theme
from foldproof.documents.trouble import ThemeError
from foldproof.findings.finding import Finding
from foldproof.pipeline import prove

SOUND = (Path(__file__).parent / "bad_input" / "sound.yaml").read_text(encoding="utf-8")
SECRET = "the word that nobody may see"
needs_links = pytest.mark.skipif(os.name == "nt", reason="needs symbolic links")


@pytest.fixture
def own(tmp_path: Path) -> Path:
    """A recipe's folder, beside a folder with things that are none of its business."""
    (tmp_path / "own").mkdir()
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / "elsewhere" / "secret.yaml").write_text(f"title: {SECRET}\n")
    (tmp_path / "elsewhere" / "secret.csv").write_text(f"{SECRET}\n{SECRET}, 1:00\n")
    (tmp_path / "elsewhere" / "secret.png").write_bytes(b"\x89PNG\r\n\x1a\n" + SECRET.encode())
    return tmp_path / "own"


def _found(own: Path, text: str) -> tuple[tuple[Finding, ...], str]:
    """What is found, and all that could be printed of it."""
    path = own / "card.yaml"
    path.write_text(text, encoding="utf-8")
    proof = prove(path)
    return proof.findings, f"{proof.findings}{proof.sources}{proof.photos}"


def _with_picture(written: str) -> str:
    return f'{SOUND}picture: "{written}"\npicture shows: The card.\n'


@pytest.mark.parametrize("written", [
    pytest.param("../elsewhere/secret.png", id="up"), pytest.param("a/../../elsewhere/secret.png", id="in and up"),
    pytest.param("{elsewhere}/secret.png", id="from the top"), pytest.param("/etc/passwd", id="the system's"),
    pytest.param("file:///etc/passwd", id="file address"), pytest.param("~/secret.png", id="somebody's home"),
    pytest.param("http://outside.example/a.png", id="web"),
    pytest.param("//outside.example/a.png", id="web, no scheme"),
    pytest.param("data:image/png;base64,iVBORw0KGgo=", id="data"), pytest.param("..\\\\secret.png", id="backslash"),
    pytest.param("C:\\\\secret.png", id="drive"), pytest.param("linked.png", id="link to a file"),
    pytest.param("folder/secret.png", id="link to a folder"), pytest.param("ring/ring.png", id="ring of links"),
    pytest.param("pipe.png", id="a pipe that never ends"), pytest.param("/dev/zero", id="a device"),
    pytest.param("drawn.svg", id="SVG"), pytest.param("drawn.png", id="SVG named PNG"),
])
@needs_links
def test_a_picture(own: Path, written: str) -> None:
    (own / "linked.png").symlink_to(own.parent / "elsewhere" / "secret.png")
    (own / "folder").symlink_to(own.parent / "elsewhere")
    (own / "ring").symlink_to("ring")
    os.mkfifo(own / "pipe.png")
    drawn = f'<svg xmlns="http://www.w3.org/2000/svg"><image href="{own.parent}/elsewhere/secret.png"/></svg>'
    (own / "drawn.svg").write_text(drawn)
    (own / "drawn.png").write_text(drawn)
    findings, told = _found(own, _with_picture(written.format(elsewhere=own.parent / "elsewhere")))
    names = {finding.name for finding in findings}
    assert names & {"picture elsewhere", "picture missing", "no picture"}, findings
    assert SECRET not in told


@pytest.mark.parametrize("written", [
    "../elsewhere/secret.yaml", "{elsewhere}/secret.yaml", "linked.yaml", "folder/secret.yaml", "http://outside.example/a",
    "file:///etc/passwd", "/etc/passwd",
])
@needs_links
def test_the_recipe_that_a_look_names(own: Path, written: str) -> None:
    (own / "linked.yaml").symlink_to(own.parent / "elsewhere" / "secret.yaml")
    (own / "folder").symlink_to(own.parent / "elsewhere")
    findings, told = _found(own, f'look of: "{written.format(elsewhere=own.parent / "elsewhere")}"\ntitle: Look\n')
    assert {finding.name for finding in findings} & {"recipe elsewhere", "file missing"}
    assert SECRET not in told


@pytest.mark.parametrize("ending", ["times.csv", "times.txt", "said.vtt", "said.srt"])
@needs_links
def test_the_files_of_a_recording_that_lie_beside_it(own: Path, ending: str) -> None:
    if ending.startswith("said"):
        (own / "card.times.csv").write_text("step, begins\nlength, 5:00\n")
    (own / f"card.{ending}").symlink_to(own.parent / "elsewhere" / "secret.csv")
    findings, told = _found(own, SOUND)
    assert any(finding.name in ("times file elsewhere", "caption file elsewhere") for finding in findings), findings
    assert SECRET not in told


@pytest.mark.parametrize("option", ["--stock", "--desk"])
def test_a_file_of_the_teacher_s_own_is_no_device(
    own: Path, option: str, capsys: pytest.CaptureFixture[str],
) -> None:
    (own / "card.yaml").write_text(SOUND)
    status = main(["class", str(own / "card.yaml"), "--people", "2", option, "/dev/zero", "--into", str(own / "build")])
    shown = capsys.readouterr()
    assert status == 1
    assert "not a file" in shown.out
    assert not (own / "build").exists()


@pytest.mark.parametrize("command", [["draft"], ["compare"], ["check"]], ids=" ".join)
@needs_links
def test_a_file_that_never_ends(
    tmp_path: Path, command: list[str], capsys: pytest.CaptureFixture[str],
) -> None:
    os.mkfifo(tmp_path / "pipe")
    for path in ("/dev/zero", str(tmp_path / "pipe")):
        more = [str(tmp_path / "pipe")] if command == ["compare"] else []
        assert main([*command, path, *more]) in (1, 2)
        shown = capsys.readouterr()
        assert "no ordinary file" in shown.out + shown.err


def _theme(tmp_path: Path, plain: Theme) -> Path:
    folder = tmp_path / "mine"
    folder.mkdir()
    for name, data in plain.files.items():
        (folder / name).write_bytes(data)
    return folder


@pytest.mark.parametrize("more", [
    "@import 'http://outside.example/a.css';", "@import url(//outside.example/a.css);",
    "body { background: url(http://outside.example/a.png) }", "body { background: URL('file:///etc/passwd') }",
    "body { background: u\\72l(http://outside.example/a.png) }", "@\\69mport 'a.css';",
    "body { background: u/**/rl(x) image-set('http://outside.example/a.png' 1x) }",
    "@font-face { font-family: x; src: url(data:font/woff2;base64,AAAA) }",
])
def test_a_style_sheet_of_a_theme(tmp_path: Path, more: str) -> None:
    folder = _theme(tmp_path, load_theme("plain"))
    (folder / "page.css").write_text((folder / "page.css").read_text() + more)
    with pytest.raises(ThemeError, match=r"page\.css asks for something from elsewhere"):
        read_theme(folder)


@pytest.mark.parametrize("more", [
    "<img src='http://outside.example/a.png'>", "<img src=//outside.example/a.png>", "<img src='file:///etc/passwd'>",
    "<iframe src='x'></iframe>", "<link rel=stylesheet href=a.css>", "<object data=x></object>", "<base href='/'>",
    "<meta http-equiv=refresh content='0;url=x'>", "<video poster='https://outside.example/'>",
    "<script src='https://outside.example/a.js'></script>", "<style>@import 'x'</style>",
])
def test_a_template_of_a_theme(tmp_path: Path, more: str) -> None:
    folder = _theme(tmp_path, load_theme("plain"))
    (folder / "handout.html").write_text((folder / "handout.html").read_text() + more)
    with pytest.raises(ThemeError, match=r"handout\.html asks for something from elsewhere"):
        read_theme(folder)


@needs_links
def test_a_link_in_a_theme(tmp_path: Path) -> None:
    folder = _theme(tmp_path, load_theme("plain"))
    (folder / "page.css").unlink()
    (folder / "page.css").symlink_to("/etc/passwd")
    with pytest.raises(ThemeError, match="leads out of the theme's folder"):
        read_theme(folder)


@pytest.mark.parametrize("template", [
    pytest.param("{% include '../secret.html' %}", id="include upward"),
    pytest.param("{% include '/etc/passwd' %}", id="include from the top"),
    pytest.param("{% import '../secret.html' as x %}", id="import"),
    pytest.param("{% extends '../secret.html' %}", id="extends"),
    pytest.param("{{ ''.__class__.__mro__ }}", id="classes"),
    pytest.param("{{ ''['__class__'] }}", id="classes by subscript"),
    pytest.param("{{ ''|attr('__class__') }}", id="classes by filter"),
    pytest.param("{{ cycler.__init__.__globals__ }}", id="globals of a helper"),
    pytest.param("{{ self._TemplateReference__context.environment.loader }}", id="the loader by its context"),
    pytest.param("{{ view.format.__globals__ }}", id="globals of a method"),
    pytest.param("{{ '{0.__class__}'.format(view) }}", id="format"),
    pytest.param("{{ '{0.__class__}'|format }}{{ view.__class__ }}", id="a record's class"),
    pytest.param("{% set _ = view.items.append(1) %}", id="changing a list"),
    pytest.param("{% for x in range(10000000000) %}{% endfor %}", id="a loop without end"),
])
def test_the_sandbox_of_templates(tmp_path: Path, template: str) -> None:
    class View:
        """Something to look into."""

        def __init__(self) -> None:
            self.items = [0]

        def format(self) -> str:
            return ""

    (tmp_path / "secret.html").write_text(SECRET)
    folder = tmp_path / "mine"
    folder.mkdir()
    (folder / "try.html").write_text(template)
    with pytest.raises(ThemeError):
        read_theme(folder).render("try.html", view=View())


@pytest.mark.parametrize("asked", [
    "<img src='file:///etc/passwd'>", "<img src='http://outside.example/a.png'>",
    "<img src='foldproof:drawing/none.svg'>",
    "<img src='foldproof:../../etc/passwd'>", "<img src='foldproof:font/../secret'>", "<style>@import 'file:///a'</style>",
    "<style>p{background:url(file:///etc/passwd)}</style><p>x", "<link rel=attachment href=file:///etc/passwd>",
    "<img src='data:image/svg+xml,<svg/>'>",
])
def test_the_printer(asked: str) -> None:
    with pytest.raises(ThemeError, match="asks for something that no document holds"):
        to_pdf(f"<!doctype html><html lang=en><title>x</title><body>{asked}", {})


@pytest.mark.parametrize("inside", [
    "<image href='file:///etc/passwd' width='9' height='9'/>", "<use href='http://outside.example/a.svg#a'/>",
    "<image href='foldproof:drawing/b.svg#x' width='9' height='9'/>",
])
def test_svg_inside_svg(inside: str) -> None:
    """The printer asks its own fetcher for what a drawing names, and that gives out nothing but the materials."""
    asked: list[str] = []
    svg = f"<svg xmlns='http://www.w3.org/2000/svg' width='9' height='9'>{inside}</svg>".encode()

    class Told(dict[str, tuple[str, bytes]]):
        def __contains__(self, name: object) -> bool:
            asked.append(str(name))
            return super().__contains__(name)

    page = "<!doctype html><html lang=en><title>x</title><body><img src='foldproof:drawing/a.svg' alt=x>"
    attempt: Callable[[], bytes] = lambda: to_pdf(page, Told({"drawing/a.svg": ("image/svg+xml", svg)}))  # noqa: E731
    try:
        data = attempt()
    except ThemeError:
        return
    assert b"root:" not in data
    assert set(asked) <= {"drawing/a.svg", "drawing/b.svg", "drawing/b.svg#x"}
