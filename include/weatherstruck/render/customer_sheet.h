#pragma once
// What the customer must know when the mason drives off: what to keep off and until when, what to uncover,
// what may be filled, which nights freeze, whom to call.
#include <string>
#include <vector>

#include "weatherstruck/render/page.h"
#include "weatherstruck/render/trip.h"

namespace weatherstruck::render {

/// Who signs it. Empty parts are left out.
struct Caller {
  std::string name;
  std::string contact;  ///< telephone or mail
};

/// A thing to do or to leave, and when.
struct CareLine {
  std::string what;  ///< "Flags of the path"
  std::string when;  ///< "nobody on them until Fri 13 Feb 17:00"
  std::string test;  ///< how to tell; may be empty
};

struct CustomerSheet {
  std::string title;    ///< "Looking after the new work"
  std::string job;      ///< what and for whom
  std::string leaves;   ///< "The mason leaves on Thu 12 Feb, about 18:00."
  std::string warning;  ///< as on every sheet
  std::vector<CareLine> keep_off;
  std::vector<CareLine> covers;      ///< what stays covered, and when it comes off
  std::vector<CareLine> fill;        ///< what may be filled or built on, from when
  std::vector<std::string> frost;    ///< sentences: nights to come that freeze, or that none is forecast
  std::vector<std::string> general;  ///< what holds for all of it
  std::vector<std::string> left;     ///< work that was not done
  std::string call;                  ///< "Call Rhys Vaughan, 01970 000000, ..."; may be empty
  std::string known;                 ///< what it rests on: forecast, when made
};

[[nodiscard]] CustomerSheet customer_sheet_of(const TripFacts& facts, const Caller& caller);
[[nodiscard]] std::string customer_text(const CustomerSheet& sheet, Ink ink);
/// A whole HTML 5 document in UTF-8, without script, for a mail, a phone, and A4 paper.
[[nodiscard]] std::string customer_html(const CustomerSheet& sheet);

}  // namespace weatherstruck::render
