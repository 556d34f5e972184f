"""Compiled code never outlives a change in what it calls."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

INNER = "from hubwright.engineering.kernels import njit\n\n\n@njit()\ndef inner(x):\n    return x + {0}\n"
OUTER = (
    "from hubwright.engineering.kernels import njit\nfrom hubwright.engineering.sub.low.kernels import inner\n\n\n"
    "@njit()\ndef outer(x):\n    return inner(x)\n"
)
ASK = "from hubwright.engineering.sub.kernels import outer; print(outer(1))"


@pytest.mark.slow
def test_a_change_in_a_called_kernel_reaches_its_callers(tmp_path: Path) -> None:
    root = Path(__file__).resolve().parents[2] / "src" / "hubwright" / "engineering" / "kernels.py"
    subject = tmp_path / "hubwright" / "engineering" / "sub"
    (subject / "low").mkdir(parents=True)
    for folder in (subject / "low", subject, subject.parent, subject.parent.parent):
        (folder / "__init__.py").touch()
    (subject.parent / "kernels.py").write_text(root.read_text(encoding="utf-8"), encoding="utf-8")
    (subject / "kernels.py").write_text(OUTER, encoding="utf-8")
    told = {**os.environ, "PYTHONPATH": str(tmp_path), "PYTHONDONTWRITEBYTECODE": "1"}
    told.pop("NUMBA_CACHE_DIR", None)
    said = []
    for number in (10, 10, 200):
        path = subject / "low" / "kernels.py"
        if not path.exists() or INNER.format(number) != path.read_text(encoding="utf-8"):
            path.write_text(INNER.format(number), encoding="utf-8")
        done = subprocess.run([sys.executable, "-c", ASK], capture_output=True, text=True, env=told, check=True)
        said.append(int(done.stdout))
    assert said == [11, 11, 201]
    kept = list((subject / "__pycache__").glob("kernels-*"))
    assert len(kept) == 1
    assert list(kept[0].rglob("*.nbc"))


@pytest.mark.slow
def test_numba_comes_without_all_of_scipys_linear_algebra_and_still_finds_it_when_it_is_needed() -> None:
    ask = (
        "import sys, hubwright.engineering.kernels, numba.np.arraymath as arrays; "
        "print('scipy.linalg' in sys.modules, arrays._HAVE_BLAS); "
        "import numba, numpy; dot = numba.njit(lambda a, b: a @ b); print(dot(numpy.eye(2), 3 * numpy.eye(2))[0, 0]); "
        "import scipy.linalg; print(scipy.linalg.det(2 * numpy.eye(2)))"
    )
    done = subprocess.run([sys.executable, "-c", ask], capture_output=True, text=True, check=True)
    assert done.stdout.split() == ["False", "True", "3.0", "4.0"]
