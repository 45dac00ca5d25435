"""The same recipe and date make the same bytes: in another folder, another process, with another order of hashes, at
another time of the day and place of the earth."""

import os
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path

import foldproof
from foldproof.kept import KEPT
from foldproof.pipeline import Proof


def test_the_same_bytes_in_another_folder_and_process(
    files: Mapping[str, bytes], proof: Proof, tmp_path: Path,
) -> None:
    folder = tmp_path / "a folder of another name"
    folder.mkdir()
    (folder / "quiet.yaml").write_text(proof.reading.source, encoding="utf-8")
    seed = "1" if os.environ.get("PYTHONHASHSEED") != "1" else "2"
    subprocess.run(
        [sys.executable, "-m", "foldproof", "build", "quiet.yaml", "--into", "out", "--dated", "2026-03-01"],
        cwd=folder, check=True, timeout=300, env={
            **os.environ, "PYTHONPATH": str(Path(foldproof.__file__).parents[1]), "PYTHONHASHSEED": seed,
            "TZ": "Pacific/Chatham", "LC_ALL": "C", "SOURCE_DATE_EPOCH": "1"})
    made = folder / "out" / "quiet"
    there = {
        path.relative_to(made).as_posix(): path.read_bytes() for path in sorted(made.rglob("*"))
        if path.is_file() and path.name not in (KEPT, ".contents")}
    assert there.keys() == files.keys()
    assert [name for name in files if there[name] != files[name]] == []
