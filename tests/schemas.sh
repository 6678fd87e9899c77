#!/usr/bin/env bash
# schemas.sh BUILD: what every command says with --json, for every example and for a stash that is filled on the way,
# held against the schema it prints, by another program's validator (Debian's python3-jsonschema).
set -euo pipefail
cd "$(dirname "$0")/.."
exec python3 - "$1/battwright" "$PWD/blends" <<'PYTHON'
import copy, glob, json, subprocess, sys, tempfile
from jsonschema import Draft202012Validator

program, blends = sys.argv[1], sys.argv[2]
program = subprocess.run(["realpath", program], capture_output=True, text=True, check=True).stdout.strip()
place = tempfile.mkdtemp()
faults, held = [], {}


def run(*words):
    return subprocess.run([program, *words], cwd=place, capture_output=True, text=True)


def schema_of(name):
    schema = json.loads(run("--schema", name).stdout)
    Draft202012Validator.check_schema(schema)
    if ":1:" not in schema["$id"]:
        faults.append(f"{name}: the schema has no version")
    return schema


def hold(name, *words):
    said = run(*words, "--json")
    try:
        value = json.loads(said.stdout)
    except ValueError:
        faults.append(f"{' '.join(words)}: no JSON; {said.stderr.strip()}")
        return
    schema = held.setdefault(name, schema_of(name))
    for error in Draft202012Validator(schema).iter_errors(value):
        faults.append(f"{' '.join(words)}: {'/'.join(map(str, error.absolute_path))}: {error.message}")
    # A schema that takes anything holds nothing: a key more, or one less, is refused.
    if isinstance(value, dict):
        worse = [dict(value, driftwood=1)]
        worse += [{k: v for k, v in value.items() if k != key} for key in schema.get("required", [])]
        if any(Draft202012Validator(schema).is_valid(one) for one in worse):
            faults.append(f"{name}: the schema takes a value it should refuse")


def stash(verb, *words):
    hold("stash " + verb, "stash", verb, "--stash", "s.db", *words)


examples = sorted(glob.glob(blends + "/*.toml"))
for example in examples:
    hold("forecast", "forecast", example)
    hold("forecast", "forecast", example, "--light", "A", "--optics", "friele")
    hold("yarn", "yarn", "--wpi", "12", "--recipe", example)
    hold("sample", "sample", example)
    hold("scraps", "scraps", "--from", example, "--total", "30 g")
    hold("match", "match", "#607080", "--from", example, "--total", "30 g")
with open(place + "/series.toml", "w") as file:
    file.write(open(examples[0]).read() + """
[series]
batts = 4
each = "12 g"
to = [ { what = "component 1", share = "100 %" } ]
""")
hold("series", "series", place + "/series.toml")
hold("match", "match", "#607080", "--from", examples[0], "--total", "30 g", "--bound", "silk >= 90 %", "--light2", "F2")
hold("yarn", "yarn", "--weight", "100 g", "--turns", "200", "--circumference", "1.5 m", "--wpi", "14")
stash("add", "--name", "Harbour fog", "--mark", "FGHR3C", "--weight", "200 g", "--fibre", "merino-fine", "--colour",
      "#8a96a0", "--cost", "12.50 EUR", "--staple", "80 mm", "--diameter", "21 um", "--date", "2024-04-03")
stash("add", "--name", "Brass wrack", "--mark", "DRWK4T", "--weight", "60 g", "--fibre", "tussah-silk 70 %",
      "polwarth 30 %", "--form", "braid")
stash("add", "--name", "Gull fleece", "--mark", "GXFY4C", "--weight", "300 g", "--fibre", "romney", "--raw", "--yield",
      "65 %")
batt = 'format = 1\nname = "Tide"\n[[component]]\nlot = "FGHR3C"\nfibre = "merino-fine"\nweight = "%s"\n'
open(place + "/r.toml", "w").write(batt % "40 g")
open(place + "/big.toml", "w").write(batt % "900 g")
stash("card", "r.toml")
stash("card", "r.toml")
stash("card", "big.toml")
stash("off-drum", "1", "38 g")
stash("undo-card", "2")
stash("skein", "--batt", "1", "--weight", "35 g", "--length", "120 m", "--wpi", "14", "--plies", "2")
stash("skein", "--name", "from before", "--weight", "50 g")
stash("skein", "--batt", "1", "--name", "far off", "--weight", "30 g", "--length", "400 m", "--wpi", "14", "--plies", "2")
stash("edit-skein", "1", "--note", "slack water")
for verb in ["skeins", "batts", "calibration", "list", "check"]:
    stash(verb)
for mark in ["FGHR3C", "DRWK4T", "GXFY4C"]:
    stash("show", mark)
stash("weigh", "FGHR3C", "150 g")
stash("waste", "DRWK4T", "2 g")
stash("give", "FGHR3C", "5 g")
stash("buy", "FGHR3C", "50 g", "--cost", "3 EUR")
stash("scour", "GXFY4C", "190 g")
stash("edit", "FGHR3C", "--name", "Harbour mist")
stash("allocate", "1", "60 m", "mitts")
stash("projects")
stash("release", "1")
for report in ["kinds", "age", "costs", "year"]:
    stash("report", report)
stash("what", "--colour", "#8a96a0")
stash("backup", "b.db")
stash("remove-skein", "2")
stash("tag", "FGHR3C", "-o", "t.pdf")
stash("restore", "b.db")
unknown = run("--schema", "tide")
if unknown.returncode != 2 or len(unknown.stderr.splitlines()) != 1:
    faults.append("an unknown command's schema is not one line and 2")
for fault in faults[:20]:
    print(fault)
print(f"{len(held)} commands held against their schemas, {len(faults)} faults")
sys.exit(1 if faults else 0)
PYTHON
