"""Every collected row of law is represented, with its figures and its document."""

from __future__ import annotations

import csv

from hubwright.rules.ruleset import all_rules

# Start of the row's rule text -> (the word of its citation that must stand in the source, its figures, its entries).
ROWS = {
    ("DE", "track increase without"): ("VdTUEV Merkblatt 751 (5/2000)", [0.02], ["DE-track-2-percent"]),
    ("DE", "ladder-frame"): ("guideline", [0.04], ["DE-track-4-percent-ladder"]),
    ("DE", "worked example"): ("VdTUEV", [0.02], ["DE-track-2-percent"]),
    ("DE", "clearance"): ("guideline", [], ["DE-clearance"]),
    ("DE", "wheel cover, national"): ("BMV/StV 7-4005 T/62 of 1962-01-24", [0], ["DE-cover-national"]),
    ("DE", "wheel cover, EC"): ("78/549/EEC", [0, 0], ["DE-cover-sector-wheel", "EU-guard-sector-tyre"]),
    ("DE", "statute"): (
        "StVZO",
        [-0.04, 0.04],
        ["DE-covers", "DE-projecting-edges", "DE-permit-lapses", "DE-odometer"],
    ),
    ("EU", "wheel guards"): (
        "2021/535",
        [0, 0, 2, 30, 150],
        [
            "EU-guard-sector-tyre",
            "EU-guard-width",
            "EU-guard-rear-edge",
            "EU-guard-lip-depth",
            "EU-guard-edge-radius",
        ],
    ),
    ("EU", "tyre installation"): ("UN R142", [0], ["EU-free-movement"]),
    ("UN", "speedometer"): ("UN R39", [0.1, 4], ["UN-speedometer"]),
    ("UN", "inset definition"): ("UN R124", [], ["UN-inset-definition"]),
    ("UN", "replacement wheels"): ("UN R124", [3, 6.5], ["UN-wheel-bolt-circle", "UN-wheel-fixings"]),
    ("AT", "track"): ("common practice text", [0.02], ["AT-track-2-percent"]),
    ("AT", "cover"): ("OOe", [0, 0], ["AT-cover-tyre", "AT-cover-wheel", "AT-free-movement"]),
    ("AT", "clearance in all states"): ("inspection guideline", [5, 10], ["AT-gap-body", "AT-gap-chassis"]),
    ("AU (ADR)", "wheel guards MA"): ("ADR 42", [0], ["AU-guard-sector-tyre"]),
    ("AU-NSW", "track"): (
        "VSI 9",
        [12.5, 25, 50],
        ["AU-NSW-track-passenger", "AU-NSW-track-off-road-goods", "AU-NSW-track-other-axle"],
    ),
    ("AU-NSW", "spacers"): ("VSI 9", [], ["AU-NSW-no-discs"]),
    ("AU-NSW", "cover and clearance"): ("VSI 9", [0, 0], ["AU-NSW-within-bodywork", "AU-NSW-no-contact"]),
    ("AU-NSW", "tyre OD"): ("VSI 9 rev 4", [-15, 15, 26], ["AU-NSW-tyre-diameter", "AU-NSW-wheel-width"]),
    ("AU-SA", "track"): (
        "Road Traffic (Misc) Regs 1999",
        [0.333333333333, 26],
        ["AU-SA-track", "AU-SA-suspension-travel"],
    ),
    ("AU national", "VSB 14"): ("VSB 14 LS", [25, 50], ["AU-track-passenger", "AU-track-off-road-goods"]),
    ("UK", "wings"): ("C&U Regs 1986", [], ["UK-wings"]),
    ("UK", "tread must not"): ("C&U Regs 1986", [0], ["UK-tread-inside", "UK-declare"]),
    ("US-PA", "reject,tread beyond"): ("67 Pa. Code", [0, 76.2], ["US-PA-tread-inside", "US-PA-flare"]),
    ("US-PA", "reject,steering lock"): ("67 Pa. Code", [-0.25, 0.25], ["US-PA-lock-turns", "US-PA-no-binding"]),
    ("CH", "discs up to 5 mm"): ("VTS (SR 741.41)", [0.02, 5], ["CH-disc-5-mm", "CH-track-2-percent"]),
    ("JP", "planes 30 deg"): (
        "Safety Regulations for Road Vehicles",
        [0, 10],
        ["JP-sector-tyre", "JP-sector-wheel"],
    ),
    ("CA-BC", "steered wheels"): ("BC vehicle inspection manual", [25], ["CA-BC-gap-steered"]),
}


def test_every_collected_row_has_exactly_one_place(shared):
    text = shared("standards/legal_track_and_cover.csv").read_text(encoding="utf-8")
    for row in csv.DictReader(text.splitlines()):
        places = [
            key for key in ROWS if key[0] == row["jurisdiction"] and f"{row['rule']},{row['value']}".startswith(key[1])
        ]
        assert len(places) == 1, row
    assert len(list(csv.DictReader(text.splitlines()))) == len(ROWS)


def test_every_place_names_its_document_and_holds_its_figures():
    files = all_rules()
    rules = {rule.id: rule for file in files for rule in file.rules}
    sources = {item.id: item.source for file in files for item in (*file.rules, *file.obligations)}
    for key, (document, figures, entries) in ROWS.items():
        assert all(document in sources[name] for name in entries), key
        assert sorted(value for name in entries if name in rules for value in rules[name].values) == figures, key


def test_how_a_row_was_seen_and_its_confidence_are_kept(shared):
    items = {item.id: item for file in all_rules() for item in (*file.rules, *file.obligations)}
    text = shared("standards/legal_track_and_cover.csv").read_text(encoding="utf-8")
    for row in csv.DictReader(text.splitlines()):
        key = next(k for k in ROWS if k[0] == row["jurisdiction"] and f"{row['rule']},{row['value']}".startswith(k[1]))
        if key[1] == "worked example":
            continue  # an example of the rule before it, more surely read than the rule
        for name in ROWS[key][2]:
            assert row["how_seen"].startswith(items[name].how_seen), name
            assert items[name].confidence == float(row["confidence"]), name
