"""The bench as it runs: who is let in, what a browser shows after a save, a hundred saves, and its end."""

import os
import signal
import socket
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Literal

import pytest
from benches import PATIENCE, Running, running
from browser import Outside, a_browser, needs_browser
from outside import needs_judges, page_faults

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

SOUND = (Path(__file__).parents[1] / "bad_input" / "sound.yaml").read_text(encoding="utf-8")
pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="needs SIGINT")


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Running]:
    recipe = tmp_path_factory.mktemp("bench") / "card.yaml"
    recipe.write_text(SOUND, encoding="utf-8")
    (recipe.parent / "secret.txt").write_text("secret", encoding="utf-8")
    (recipe.parent / "handout.pdf").symlink_to("/etc/passwd")
    said = tmp_path_factory.mktemp("said") / "errors"
    with said.open("w+", encoding="utf-8") as errors, running(recipe, errors) as bench:
        yield bench


@pytest.fixture(scope="module")
def browser() -> "Iterator[Browser]":
    with a_browser() as one:
        yield one


@pytest.fixture
def page(browser: "Browser", bench: Running) -> "Iterator[Page]":
    context = browser.new_context(viewport={"width": 1200, "height": 800})
    context.set_default_timeout(PATIENCE * 1000)
    one, outside, wrong = context.new_page(), Outside(), list[str]()
    outside.watch(one)
    one.on("pageerror", lambda error: wrong.append(str(error)))
    bench.recipe.write_text(SOUND, encoding="utf-8")
    one.goto(f"http://127.0.0.1:{bench.port}/")
    one.get_by_text("As saved").wait_for()
    yield one
    assert outside == [] and wrong == []
    context.close()


# Who is let in

def test_it_answers_its_own_names(bench: Running) -> None:
    for host in (f"127.0.0.1:{bench.port}", f"localhost:{bench.port}"):
        status, body, headers = bench.ask("/", Host=host)
        assert status == 200 and b"<title>Bench" in body
        assert "default-src 'none'" in headers["Content-Security-Policy"] and "server" not in headers
    own = {"Origin": f"http://localhost:{bench.port}", "Sec_Fetch_Site": "same-origin"}
    assert bench.ask("/bench.js", **own)[0] == 200


@pytest.mark.parametrize("headers", [
    pytest.param({"Host": "evil.example"}, id="another name that leads here"),
    pytest.param({"Host": "evil.example:{port}"}, id="with our port"),
    pytest.param({"Host": "127.0.0.1"}, id="without the port"),
    pytest.param({"Host": "127.0.0.1.evil.example:{port}"}, id="a name that begins like ours"),
    pytest.param({"Origin": "http://evil.example"}, id="another origin"),
    pytest.param({"Origin": "null"}, id="an origin that hides"),
    pytest.param({"Origin": "http://127.0.0.1:1"}, id="another server of this machine"),
    pytest.param({"Sec_Fetch_Site": "cross-site"}, id="a page from elsewhere"),
    pytest.param({"Sec_Fetch_Site": "same-site"}, id="a page of another port"),
])
@pytest.mark.parametrize("path", ["/", "/told", "/made/handout.pdf"])
def test_it_refuses_others(bench: Running, headers: dict[str, str], path: str) -> None:
    status, body, _ = bench.ask(path, **{name: value.format(port=bench.port) for name, value in headers.items()})
    assert status == 403 and b"answers only" in body


@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE", "OPTIONS", "PATCH"])
def test_it_is_only_looked_at(bench: Running, method: str) -> None:
    assert bench.ask("/", method)[0] == 405


@pytest.mark.parametrize("path", [
    "/secret.txt", "/card.yaml", "/made/card.yaml", "/made/secret.txt", "/made/../card.yaml", "/made/..%2fcard.yaml",
    "/made/%2e%2e/%2e%2e/etc/passwd", "//etc/passwd", "/made//etc/passwd", "/bench.py", "/made/%00", "/../bench.css",
])
def test_it_gives_out_nothing_but_what_it_made(bench: Running, path: str) -> None:
    assert bench.ask(path)[0] == 404


def test_a_link_beside_the_recipe_is_not_followed(bench: Running) -> None:
    bench.told(lambda told: "handout" in told["sheets"])
    status, body, headers = bench.ask("/made/handout.pdf")
    assert status == 200 and body.startswith(b"%PDF") and headers["Content-Type"] == "application/pdf"


def test_no_other_machine_can_look(bench: Running) -> None:
    """Every address of 127/8 is this machine; the bench listens at one of them and so not at all addresses."""
    with pytest.raises(OSError):
        socket.create_connection(("127.0.0.2", bench.port), timeout=5).close()


# What a browser shows

@needs_browser
def test_a_save_turns_the_page_and_keeps_the_place(page: "Page", bench: Running) -> None:
    inside = page.frame_locator("#page iframe:not(.next)")
    inside.locator(".step").last.evaluate("step => step.scrollIntoView({behavior: 'instant'})")
    before = inside.locator("html").evaluate("() => scrollY")
    assert before > 100
    bench.recipe.write_text(SOUND.replace("title: ", "title: Second ", 1), encoding="utf-8")
    inside.locator("h1", has_text="Second").wait_for()
    assert page.title().startswith("Second")
    assert abs(inside.locator("html").evaluate("() => scrollY") - before) <= 2
    page.get_by_role("button", name="Handout").click()
    page.get_by_text("As saved").wait_for()
    picture = page.locator("#handout img").first
    assert picture.evaluate("picture => picture.decode().then(() => picture.naturalWidth)") > 500


@needs_browser
def test_a_mistake_leaves_the_page_and_leads_to_its_line_and_its_step(page: "Page", bench: Running) -> None:
    lines = SOUND.splitlines(keepends=True)
    number = 1 + next(i for i, line in enumerate(lines) if "- score: 4 1/4" in line)
    lines[number - 1] = lines[number - 1].replace("4 1/4", "4 1/8")
    bench.recipe.write_text("".join(lines), encoding="utf-8")
    note = page.locator(".note.error", has=page.get_by_role("button", name=f"Line {number}", exact=True)).first
    note.wait_for()
    assert "What lies here is from" in page.locator("#notice").inner_text()
    assert page.locator("#page iframe").count() == 1
    note.get_by_role("button", name="Show it on the page").click()
    pointed = page.frame_locator("#page iframe").locator("[data-pointed]")
    assert "step" in (pointed.get_attribute("class") or "")
    assert pointed.evaluate("there => there === document.activeElement")
    note.get_by_role("button", name=f"Line {number}", exact=True).click()
    line = page.locator(".line.shown")
    assert line.locator("span").inner_text().strip() == str(number) and line.locator("mark").count() == 1
    assert line.evaluate("line => line === document.activeElement") and line.is_visible()
    bench.recipe.write_text(SOUND, encoding="utf-8")
    page.get_by_text("As saved").wait_for()
    assert not page.locator("#notice").is_visible()


@needs_browser
@needs_judges
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_it_is_accessible_as_far_as_a_machine_sees(page: "Page", scheme: Literal["light", "dark"]) -> None:
    page.emulate_media(color_scheme=scheme)
    for width in (360, 1280):
        page.set_viewport_size({"width": width, "height": 800})
        assert page_faults(page) == [], width


def test_it_is_used_on_a_phone(page: "Page") -> None:
    page.set_viewport_size({"width": 360, "height": 740})
    page.reload()
    page.get_by_text("As saved").wait_for()
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    for button in page.locator("nav button").all():
        box = button.bounding_box()
        assert box is not None and box["height"] >= 44 and box["x"] + box["width"] <= 360
    page.locator("summary").click()
    page.keyboard.press("Tab")
    page.get_by_role("button", name="Recipe").press("Enter")
    assert page.locator("#recipe .line").first.is_visible() and not page.locator("#page iframe").is_visible()


# Many saves, and the end

def test_a_hundred_quick_saves_end_with_the_last(bench: Running) -> None:
    before = bench.told(lambda told: True)["number"]
    for number in range(100):
        bench.recipe.write_text(SOUND.replace("title: ", f"title: Save {number} ", 1), encoding="utf-8")
        time.sleep(0.005)
    last = bench.told(lambda told: told["title"].startswith("Save 99 ") and not told["working"])
    assert last["sound"] and b"Save 99 " in bench.ask(f"/made/{last['page']}")[1]
    assert last["number"] - before < 50, "saves that follow each other closely count as one"
    assert bench.process.poll() is None


def test_an_editor_that_saves_by_renaming_is_followed(bench: Running) -> None:
    aside = bench.recipe.with_suffix(".new")
    aside.write_text(SOUND.replace("title: ", "title: Renamed ", 1), encoding="utf-8")
    aside.replace(bench.recipe)
    bench.told(lambda told: told["title"].startswith("Renamed "))


def test_it_ends_cleanly(bench: Running) -> None:
    children = [
        int(pid.name) for pid in Path("/proc").iterdir() if pid.name.isdigit()
        and _parent(pid) == bench.process.pid] if Path("/proc").is_dir() else []
    line = socket.create_connection(("127.0.0.1", bench.port))
    line.sendall(f"GET /told HTTP/1.1\r\nHost: 127.0.0.1:{bench.port}\r\n\r\n".encode())
    assert line.recv(15) == b"HTTP/1.1 200 OK"
    os.killpg(bench.process.pid, signal.SIGINT)  # as a terminal does
    out, _ = bench.process.communicate(timeout=PATIENCE)
    line.close()
    assert bench.process.returncode == 0 and out.endswith("The bench is cleared.\n")
    bench.errors.seek(0)
    assert bench.errors.read() == ""
    until = time.monotonic() + PATIENCE
    while any(map(_alive, children)) and time.monotonic() < until:
        time.sleep(0.05)
    assert not any(map(_alive, children))
    assert sorted(path.name for path in bench.recipe.parent.iterdir()) == ["card.yaml", "handout.pdf", "secret.txt"]
    with pytest.raises(ConnectionRefusedError):
        socket.create_connection(("127.0.0.1", bench.port), timeout=5)


def _stat(process: Path) -> list[str]:
    try:
        return (process / "stat").read_text().rsplit(")", 1)[1].split()
    except (OSError, IndexError):
        return ["Z", "-1"]


def _parent(process: Path) -> int:
    return int(_stat(process)[1])


def _alive(number: int) -> bool:
    return _stat(Path(f"/proc/{number}"))[0] != "Z"
