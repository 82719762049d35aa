"""What a server loads before it answers, and what it leaves for when it is asked."""

import json
import subprocess
import sys

LATER = {
    *("saywright.cuts.planning.plans", "saywright.cuts.planning.titles", "saywright.drafting.flow"),
    *("pyphen", "num2words", "importlib.metadata"),
}
LOOK = """
import json, sys
import attrs
define = attrs.define
import saywright.protocol.server
from lsprotocol import types
print(json.dumps({
    "loaded": sorted(sys.modules),
    "is_restored": attrs.define is define,
    "is_lean": "__repr__" not in vars(types.TextEdit),
    "told": str(types.Range(types.Position(1, 2), types.Position(3, 4))),
    "are_equal": types.Hover("a") == types.Hover("a"),
}))
"""


def test_a_server_loads_no_more_than_it_needs() -> None:
    command = [sys.executable, "-c", LOOK]
    looked = subprocess.run(command, capture_output=True, text=True, check=True)
    seen = json.loads(looked.stdout)
    assert not LATER & set(seen["loaded"])
    assert seen["is_restored"]
    assert seen["is_lean"]
    assert seen["are_equal"]
    assert seen["told"] == "1:2-3:4"  # what lsprotocol writes itself stays
