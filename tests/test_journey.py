"""The journey runs one way: a stage imports only from the stages before it."""

import ast
from pathlib import Path

import foldproof

ORDER = (
    "frozen", "bounded", "findings", "measures", "paper", "recipe", "facts", "folding", "making", "checks", "origins",
    "refit", "edition", "mirror", "rescue", "tolerance", "starting", "notes", "classroom", "grammar", "filming",
    "resizing", "recording", "drawing", "documents", "filmed", "options", "kept", "pipeline", "shell", "built_table",
    "begin_command", "check_command", "class_command", "build_command", "compare_command", "draft_command",
    "film_command", "grammar_command", "number_command", "resize_command", "rescue_command", "ruler_command",
    "preview", "watch_command", "cli", "__main__",
)
HEAVY = {"matplotlib", "weasyprint", "scipy", "numpy"}
PACKAGE = Path(foldproof.__file__).parent


def imports(path: Path) -> set[str]:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    names = {node.module for node in ast.walk(tree) if isinstance(node, ast.ImportFrom) and node.module}
    return names | {alias.name for node in ast.walk(tree) if isinstance(node, ast.Import) for alias in node.names}


def stage(module: str) -> int:
    return ORDER.index(module.split(".")[1])


def test_imports_point_back_along_the_journey() -> None:
    forward = [
        (str(path.relative_to(PACKAGE)), name)
        for path in PACKAGE.rglob("*.py")
        for name in imports(path)
        if name.startswith("foldproof.") and path != PACKAGE / "__init__.py"
        and stage(name) > ORDER.index(path.relative_to(PACKAGE).parts[0].removesuffix(".py"))
    ]
    assert forward == []


def test_roots_and_sines_stay_behind_the_doors_to_floats() -> None:
    exact = ("measures", "paper", "making", "recipe", "findings")
    leaks = [
        str(path.relative_to(PACKAGE)) for folder in exact for path in (PACKAGE / folder).rglob("*.py")
        if "math.sqrt" in path.read_text(encoding="utf-8") or "math.sin" in path.read_text(encoding="utf-8")
    ]
    assert leaks == []


def test_nothing_heavy_is_imported_before_drawing() -> None:
    early = (
        "findings", "measures", "paper", "recipe", "facts", "folding", "making", "checks", "origins", "refit",
        "edition", "mirror", "rescue", "tolerance", "starting", "filming", "recording",
    )
    heavy = [
        (str(path.relative_to(PACKAGE)), name) for folder in early for path in (PACKAGE / folder).rglob("*.py")
        for name in imports(path) if name.split(".")[0] in HEAVY
    ]
    assert heavy == []
