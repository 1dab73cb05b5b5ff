#pragma once
// Who he is: what is the same for every job, asked once and kept. What he charges stands elsewhere (account).
#include <string>
#include <vector>

#include "weatherstruck/base/fault.h"
#include "weatherstruck/base/zone.h"
#include "weatherstruck/works/job.h"
#include "weatherstruck/works/own_pace.h"

namespace weatherstruck::works {

/// Hours on site where nobody says otherwise: common practice, no source.
inline constexpr DaySpan usual_working_day{std::chrono::hours(7), std::chrono::hours(20)};
inline constexpr base::Hours usual_longest_day{12};
/// A merchant's counter: common practice, no source.
inline constexpr DaySpan usual_merchant_weekday{std::chrono::hours(7) + std::chrono::minutes(30),
                                                std::chrono::hours(17)};
inline constexpr DaySpan usual_merchant_saturday{std::chrono::hours(8), std::chrono::hours(12)};
/// Noisy work: typical council hours (Liverpool, Stratford, Kent, Central Bedfordshire), verified.
inline constexpr DaySpan usual_noisy_weekday{std::chrono::hours(8), std::chrono::hours(18)};
inline constexpr DaySpan usual_noisy_saturday{std::chrono::hours(8), std::chrono::hours(13)};

struct Me {
  std::string name;        ///< as on an invoice, 1..120 characters
  std::string address;     ///< commas between its lines, 0..300 characters
  std::string contact;     ///< mail address that forecast services are told, 0..120 characters; empty: none
  std::string tax_number;  ///< empty: not registered
  std::string pay_to;      ///< how he is paid, as an invoice prints it; may be empty
  base::Zone home_zone;
  std::vector<Person> crew;  ///< at least one who lays bricks
  Kit kit;
  Limits limits;
  Practice practice;
  DaySpan working_day = usual_working_day;
  base::Hours longest_day = usual_longest_day;
  std::vector<DaySpan> merchant_monday_to_friday{usual_merchant_weekday};
  std::vector<DaySpan> merchant_saturday{usual_merchant_saturday};
  // What electronic invoices want besides; empty where he has not said.
  std::string town{};                  ///< where it does not stand in the address
  std::string postcode{};              ///< likewise
  std::string country{};               ///< ISO 3166-1, two letters
  std::string registration{};          ///< in a register of companies or trades, or at the tax office
  std::string iban{};                  ///< ISO 13616
  std::string bic{};                   ///< ISO 9362
  std::vector<PaceStart> pace_from{};  ///< what of his own pace he had forgotten, in the order he said so
};

/// One mason at the norm, with the usual kit and mixes.
[[nodiscard]] Me usual_me(base::Zone home_zone);

/// A job of his with nothing built yet: name, title, customer, place and trip are stand-ins that pass the
/// checks, everything that `me` knows is his. The site's clock is that of home.
[[nodiscard]] Job job_for(const Me& me);

/// What the checks of a job find in his crew, kit, limits, practice and hours; places as in his document.
[[nodiscard]] base::Faults faults_of(const Me& me);

}  // namespace weatherstruck::works
