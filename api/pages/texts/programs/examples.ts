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

/** Fifteen lines for a single-board computer: Python 3.6 or newer, nothing installed. */
export const PYTHON = `import contextlib, json, re, sys, urllib.request
rows = []
with contextlib.suppress(KeyboardInterrupt):  # Ctrl-C ends the log
    for line in open(sys.argv[1]):  # /dev/ttyUSB0, or a file of such lines
        numbers = [float(text) for text in re.findall(r"=([\\d.]+)", line)]
        if len(numbers) == 3: rows.append(numbers)
t, fine, coarse = zip(*rows)
channels = [{"id": f"over{um}", "quantity": "number", "unit": "1/cm3", "cumulative": "above",
             "from_um": um, "values": values} for um, values in [(0.3, fine), (1.0, coarse)]]
run = {"role": "full_log", "series": {"t": {"unit": "s", "values": t}, "channels": channels}}
trial = {"room": {"volume": {"value": 30, "unit": "m3", "u": 0.6}}, "counters": [{"id": "c1"}], "runs": [run]}
data, kind = json.dumps(trial).encode(), {"Content-Type": "application/json"}
request = urllib.request.Request("${EXAMPLE_SERVICE}/v1/analyses", data, kind)
for found in json.load(urllib.request.urlopen(request))["results"]:
    print(found["band"]["name"], round(found["cadr"]["low"]), "to", round(found["cadr"]["high"]), "m3/h")`;

/** Before it, on Linux: the port's speed, and lines as they come. */
export const SERIAL = `stty -F /dev/ttyUSB0 9600 raw
python3 send.py /dev/ttyUSB0`;

/** k by hand in a spreadsheet: time in A, a channel in B, its background in E1, the window from row 200 to 260. */
export const FORMULAS = `C200  =LN(B200-$E$1)
E2    =-3600*SLOPE(C200:C260,A200:A260)
E3    =3600*INDEX(LINEST(C200:C260,A200:A260,TRUE,TRUE),2,1)`;
