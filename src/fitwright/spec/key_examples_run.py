"""Examples for the keys of hose runs, as `key_examples` has them for all."""

from __future__ import annotations

_ANY: dict[str, str] = {
    "name": "planer_run",
    "units": "in",
    "hose": "{over_ribs: 108.4, inside: 100}",
    "dust": "chips",
    "bend_radius": "150",
    "keep_above": "950",
}
_OF: dict[str, dict[str, str]] = {
    "RowKeys": {
        "hose_run": "row",
        "hangers": "[{at: {up: 2100}}, {at: {right: 1200, up: 2100}}]",
        "count": "5",
        "spacing": "1200",
        "up": "2100",
        "from": "{at: {right: -900, up: 2100}, label: wall port}",
        "to": "{at: {right: 5900, up: 1200}, label: planer hood}",
        "pull": "25 N",
        "sag": "50",
    },
    "MovingHeadKeys": {
        "hose_run": "moving_head",
        "port": "{at: {right: -700, up: 1500}, faces: up}",
        "hangers": "[{at: {right: 600, up: 2400}, runs: turns}]",
        "head": "{at: {up: 1150}, travel: {right: 1200, up: 120}, faces: up, holds: 40 N}",
        "length": "3100",
        "droop": "{juts: 700, hangs: 300}",
        "ceiling": "2450",
        "stay_within": "{from: {right: -800}, to: {right: 1500}}",
    },
    "PlacedKeys": {"at": "{right: 1200, up: 2100}", "label": "wall port"},
    "RowHangerKeys": {"at": "{right: 1200, up: 2100}", "label": "over the door", "sag": "40"},
    "PortKeys": {"at": "{right: -700, up: 1500}", "label": "wall port", "faces": "right"},
    "RunHangerKeys": {
        "at": "{right: 600, up: 2400}",
        "label": "hook",
        "runs": "turns",
        "rail_to": "{right: 1500, up: 2400}",
        "length": "1600",
    },
    "MovingPortKeys": {
        "at": "{up: 1150}",
        "label": "shoe",
        "faces": "up",
        "travel": "{right: 1200, away: 800, up: 120}",
        "holds": "40 N",
    },
    "DroopKeys": {"juts": "700", "hangs": "300"},
    "WithinKeys": {"from": "{right: -200, away: -100}", "to": "{right: 1400, away: 900}"},
    "HangerRunKeys": {"file": "runs/gantry_run.yaml", "hanger": "hook"},
    "RoomPointKeys": {
        "right": "1200",
        "left": "300",
        "up": "2100",
        "down": "100",
        "away": "800",
        "toward": "50",
    },
    "HoseHangerKeys": {"run": "{file: runs/gantry_run.yaml, hanger: hook}"},
}
RUN_EXAMPLES: dict[str, str] = {
    **{f"{model}.{key}": says for model in ("RowKeys", "MovingHeadKeys") for key, says in _ANY.items()},
    **{f"{model}.{key}": says for model, keys in _OF.items() for key, says in keys.items()},
}
