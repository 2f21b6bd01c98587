/** What stands on the page to be copied. Tests run each of these against a server, with its address in place of this one. */
export const EXAMPLE_SERVICE = "https://motefall.example";

/** One full log analysed; nothing is stored. */
export const SHORTEST = `curl -s -F file=@log.csv -F volume=30m3 ${EXAMPLE_SERVICE}/v1/analyses`;

/** A trial's words, for the call below. Invented. */
export const TRIAL_JSON = `{
  "configuration": {
    "title": "Bench box", "kind": "user_built",
    "settings": [{ "label": "full" }],
    "parts": [
      { "part": "fan", "count": 1, "description": "axial fan, 200 mm" },
      { "part": "filter", "count": 1, "description": "pleated panel",
        "filter_grade": { "system": "MERV", "grade": "13" } }]
  },
  "setting": "full",
  "performed_at": "2026-10-03T18:20:00+02:00",
  "invented": true,
  "interest": "independent",
  "room": { "label": "back room", "ventilation": "off", "mixing_fan": "on",
            "volume": { "value": 30, "unit": "m3", "u": 0.6 } },
  "aerosol": { "kind": "salt" },
  "counters": [{ "id": "c1", "principle": "optical_counter" }],
  "runs": [{ "role": "full_log", "file": "log" }]
}`;

/** A key made, and a trial stored with it. */
export const STORING = `KEY=$(curl -s -X POST ${EXAMPLE_SERVICE}/v1/keys | grep -o 'mote_[A-Z0-9_]*')
echo "keep this key: $KEY"

curl -s -H "Authorization: Bearer $KEY" -H "Idempotency-Key: back-room-3-october" \\
  -F 'trial=<trial.json' -F log=@log.csv ${EXAMPLE_SERVICE}/v1/trials`;

/** Lines of a counter, invented: its seconds, and particles per cm³ from 0.3 and from 1.0 µm up. */
export const COUNTER_LINES = `T=0 N0.3=3.03 N1.0=0.48
T=10 N0.3=3.17 N1.0=0.46
T=20 N0.3=2.89 N1.0=0.41`;

/** Fifteen lines for a single-board computer: Python 3.8 or newer, nothing installed. */
export const PYTHON = `import json, re, sys, urllib.request
t, fine, coarse = [], [], []
try:
    for line in open(sys.argv[1]):  # /dev/ttyUSB0, or a file of such lines; Ctrl-C ends it
        if seen := re.match(r"T=([\\d.]+) N0\\.3=([\\d.]+) N1\\.0=([\\d.]+)", line):
            for column, text in zip((t, fine, coarse), seen.groups()): column.append(float(text))
except KeyboardInterrupt: pass
above = {"quantity": "number", "unit": "1/cm3", "cumulative": "above"}
channels = [{"id": "fine", "from_um": 0.3, **above, "values": fine}, {"id": "coarse", "from_um": 1.0, **above, "values": coarse}]
trial = {"room": {"volume": {"value": 30, "unit": "m3", "u": 0.6}}, "counters": [{"id": "c1", "principle": "optical_counter"}],
         "runs": [{"role": "full_log", "series": {"t": {"unit": "s", "values": t}, "channels": channels}}]}
request = urllib.request.Request("${EXAMPLE_SERVICE}/v1/analyses", json.dumps(trial).encode(), {"Content-Type": "application/json"})
for result in json.load(urllib.request.urlopen(request))["results"]:
    cadr = result["cadr"]
    print(result["band"]["name"], round(cadr["low"]), "to", round(cadr["high"]), cadr["unit"])`;

/** Before it, on Linux: the port's speed, and lines as they come. */
export const SERIAL = `stty -F /dev/ttyUSB0 9600 raw
python3 send.py /dev/ttyUSB0`;

/** k by hand in a spreadsheet: time in A, a channel in B, its background in E1, the window from row 200 to 260. */
export const FORMULAS = `C200:  =LN(B200-$E$1)                               (copied down to C260)
E2:    =-3600*SLOPE(C200:C260,A200:A260)             k, per hour
E3:    =3600*INDEX(LINEST(C200:C260,A200:A260,TRUE,TRUE),2,1)   what the line claims as its error`;
