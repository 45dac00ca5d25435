"""The README's example of filming is a sound recipe together with the one that it shows first."""

from pathlib import Path

import yaml

from foldproof.findings.finding import Severity
from foldproof.pipeline import prove

README = Path(__file__).parents[2] / "README.md"


def test_the_example_of_filming_is_read(tmp_path: Path) -> None:
    blocks = [part.split("```")[0] for part in README.read_text(encoding="utf-8").split("```yaml\n")[1:]]
    (film,) = [block for block in blocks if block.startswith("filming:")]
    (whole,) = [block for block in blocks if block.startswith("title: Tide gate")]
    assert set(yaml.safe_load(film)) == {"filming", "steps"}
    recipe = tmp_path / "readme.yaml"
    recipe.write_text(whole.split("steps:\n")[0] + film, encoding="utf-8")
    proof = prove(recipe)
    assert [finding.message for finding in proof.findings if finding.severity is not Severity.ADVICE] == []
    assert proof.card is not None
