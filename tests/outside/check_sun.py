"""Holds our sun against python3-ephem (libastro), which Debian carries.

usage: check_sun.py PROGRAM [WORDS...]; the program prints the cases with our answers.
Exit codes: 0 good, 1 not, 77 where the library is not installed.

The same for both: the centre of the sun stands 50 minutes of arc below a level horizon at sea level, without
refraction (that is what the 50 minutes hold: 34 of refraction and 16 of the sun's half width). Below 65 degrees
of latitude every rise and set of either has one of the other within 60 s. Anywhere, where the sun's highest or
lowest stays 0.05 degrees clear of that mark by the library, the kind of day is the library's.
"""
import math
import subprocess
import sys

try:
    import ephem
except ModuleNotFoundError:
    print("skipped: python3-ephem is not installed; scripts/setup installs it where it can")
    sys.exit(77)

MARK = -50 / 60
CLEAR = 0.05
TOLERANCE = 60
EPOCH = ephem.Date("1970/1/1 00:00:00")

sun = ephem.Sun()


def date_of(seconds):
    return ephem.Date(EPOCH + seconds / 86400)


def seconds_of(date):
    return (date - EPOCH) * 86400


def place_of(latitude, longitude):
    place = ephem.Observer()
    place.lat, place.lon = math.radians(latitude), math.radians(longitude)
    place.elevation, place.pressure = 0, 0
    place.horizon = math.radians(MARK)
    return place


def altitude(place, seconds):
    place.date = date_of(seconds)
    sun.compute(place)
    return math.degrees(sun.alt)


def events(place, start, end, step):
    """Rises or sets of the library from start to end; none where it finds no passage."""
    found, at = [], start
    while True:
        place.date = date_of(at)
        try:
            at = seconds_of(step(sun, use_center=True))
        except ephem.CircumpolarError:
            return found
        if at >= end:
            return found
        found.append(at)
        at += 600


def extremes(place, start, end):
    """The lowest and the highest of the sun: every half hour, and close by around its passages."""
    noon = (start + end) // 2
    at = list(range(start, end + 1, 1800))
    for passage in (start, noon, end):
        at += [t for t in range(passage - 1500, passage + 1501, 150) if start <= t <= end]
    heights = [altitude(place, t) for t in at]
    return min(heights), max(heights)


def unmatched(ours, theirs, start, end):
    """Each of either that has none of the other within the tolerance; at the span's ends it may lie beyond."""
    wrong = [f"ours at {t} has none of the library's" for t in ours
             if all(abs(t - other) > TOLERANCE for other in theirs)]
    return wrong + [f"the library's at {t:.0f} has none of ours" for t in theirs
                    if start + TOLERANCE < t < end - TOLERANCE and all(abs(t - other) > TOLERANCE for other in ours)]


cases = compared = polar = 0
largest = 0.0
faults = []
for line in subprocess.run(sys.argv[1:], check=True, capture_output=True, text=True).stdout.splitlines():
    latitude, longitude, start, end, state, rises, sets = line.split()
    start, end = int(start), int(end)
    place = place_of(float(latitude), float(longitude))
    cases += 1
    if abs(float(latitude)) < 65:
        for ours, step in ((rises, place.next_rising), (sets, place.next_setting)):
            ours = [] if ours == "-" else [int(t) for t in ours.split(",")]
            theirs = events(place, start - 600, end + 600, step)
            wrong = unmatched(ours, theirs, start, end)
            faults += [f"{line}\n    {what}" for what in wrong]
            if not wrong:
                compared += len(ours)
                largest = max([largest] + [min(abs(t - other) for other in theirs) for t in ours])
    if abs(float(latitude)) < 60:
        if state != "crosses":
            faults.append(f"{line}\n    below 60 degrees the sun rises and sets every day")
        continue
    low, high = extremes(place, start, end)
    if min(abs(low - MARK), abs(high - MARK)) < CLEAR:
        continue
    meant = "always" if low > MARK else "never" if high < MARK else "crosses"
    polar += meant != "crosses"
    if state != meant:
        faults.append(f"{line}\n    the library's sun goes from {low:.3f} to {high:.3f} degrees: {meant}")

for fault in faults[:20]:
    print(f"FAILED: {fault}")
print(f"ephem {ephem.__version__}: {cases} places and dates, {compared} rises and sets, the worst {largest:.1f} s off; "
      f"{polar} polar days and nights; {len(faults)} faults")
if cases < 2000 or compared < 2000 or polar < 100:
    print("FAILED: too little was compared")
    sys.exit(1)
sys.exit(1 if faults else 0)
