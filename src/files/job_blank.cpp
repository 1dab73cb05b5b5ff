#include "weatherstruck/files/job_writer.h"

namespace weatherstruck::files {

// Only what most jobs need; docs/job.schema.json has every key. Each value is one that a job could have,
// so that the document reads as it stands and the first error a person sees is his own.
std::string blank_job() {
  return R"(// A job for weatherstruck. Change what stands here; comments may stay.
// Lengths are metres. Durations are hours: 1.5 or "1:30". Times are clock
// times: of home for the trip, of the site elsewhere. What is marked "usual"
// may be left out. Every key: docs/job.schema.json
{
  "weatherstruck": 1,                  // version of this document
  "job": {
    "name": "my-job",                  // short: small letters, digits, dashes
    "title": "Shed base and a bed"     // as you would say it
  },
  "customer": {
    "name": "",
    "address": ""
  },
  "site": {
    "latitude": 52.0,                  // degrees, north is positive
    "longitude": -3.0,                 // degrees, east is positive
    "zone": "Europe/London",           // time zone of the site
    "soil": "garden",                  // garden, sand, gravel, firm-clay,
                                       // stiff-clay, rock
    "routes": [                        // ways from the kerb to the work
      {
        "name": "side-path",
        "length": 25,
        "rise": 0,                     // climb from kerb to work
        "steps": 0,                    // stairs on the way
        "narrowest": 0.9               // narrowest place
      }
    ]
  },
  "trip": {
    "leave_home": "2026-03-02T06:00",
    "home_by": "2026-03-05T20:00",     // what you promised
    "drive_out": 2,                    // at the wheel, one way
    "working_day": "07:00-20:00",      // earliest start, latest stop
    "longest_day": 12                  // most hours of work in a day
  },
  "crew": [
    { "name": "mason", "lays_bricks": true, "pace": 1 }  // 1 is the norm
  ],
  "kit": {
    "mixer_litres": 90,                // a batch; 0: by hand
    "barrow_litres": 80,
    "hessian": 20,                     // square metres
    "sheet": 30,
    "floodlights": false,
    "van_payload": 1000,               // kg
    "van_volume": 6                    // cubic metres
    // a canopy: "canopy": { "length": 3, "width": 3 }
  },
  "limits": {
    "set": "uk",                       // uk or us
    "cold_rule": "nbs"                 // nbs, nhbc or bda
  },
  "parts": [
    {
      "kind": "base",                  // base, footing, wall, bed, path,
                                       // steps, box
      "name": "shed",
      "length": 2.4,                   // outside of the brickwork, west-east
      "width": 1.8,                    // north-south
      "drop_along_length": 0.15,       // ground at west less at east
      "drop_along_width": 0,           // ground at north less at south
      "courses": 4,                    // at the highest corner, all told
      "courses_below": 2,              // of them out of sight
      "door_side": "south",            // north, east, south, west, none
      "plates": true
    },
    {
      "kind": "bed",
      "name": "bed",
      "importance": "should",          // must (usual), should, may
      "length": 2,
      "width": 0.6,
      "courses": 5,
      "joints": "either"               // strike-now, point-later, either, none
    }
  ],
  "tasks": [
    // anything else: { "name": "gate", "hours": 1, "after": ["shed"] }
  ],
  "supplies": {
    "merchant": { "drive_each_way": "0:20" },
    "deliveries": [
      // { "material": "ballast", "amount": 1, "at": "2026-03-02T09:00" }
    ],
    "on_site": []
  },
  "fixed_times": [
    // { "title": "customer out", "from": "2026-03-03T12:00",
    //   "to": "2026-03-03T13:00" }
  ],
  "fallbacks": [                       // first one first, if time runs out
    { "kind": "drop", "part": "bed", "price": "150.00 GBP" }
  ]
}
)";
}

}  // namespace weatherstruck::files
