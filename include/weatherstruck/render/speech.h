#pragma once
// How amounts and times are said on a sheet: in what the reader uses, and no finer than they are known.
#include <chrono>
#include <string>
#include <string_view>

#include "weatherstruck/base/quantity.h"
#include "weatherstruck/base/zone.h"
#include "weatherstruck/trade/kinds.h"

namespace weatherstruck::render {

/// uk: degrees Celsius, millimetres, miles an hour. us: Fahrenheit, inches of rain, miles an hour.
enum class Units { uk, us };
[[nodiscard]] Units units_of(trade::LimitSet set);

/// "4 °C", "-2 °C", "39 °F", whole degrees.
[[nodiscard]] std::string temperature(base::Celsius t, Units units);
/// "2 to 6 °C"; "4 °C" where both round to the same.
[[nodiscard]] std::string temperatures(base::Celsius low, base::Celsius high, Units units);
/// "3.2 mm", "0.13 in".
[[nodiscard]] std::string rain(base::Millimetres depth, Units units);
/// "25 mph".
[[nodiscard]] std::string wind(base::MetresPerSecond speed);
[[nodiscard]] std::string wind_number(base::MetresPerSecond speed);
/// "640 kg", "1.25 t" from a tonne up.
[[nodiscard]] std::string mass(base::Kilograms mass);
/// Thousands apart: "1,250".
[[nodiscard]] std::string whole(double count);
/// "1 mix", "4 mixes": plural with "s", after s, x, ch and sh with "es".
[[nodiscard]] std::string count_of(long count, std::string_view word);

/// The nearest quarter of an hour. A later time never comes out sooner.
[[nodiscard]] base::LocalTime to_quarter(base::LocalTime t);
/// "07:15", to the quarter.
[[nodiscard]] std::string quarter(base::LocalTime t);
/// "07:15" on `today`, "Tue 07:15" within six days of it, else "Tue 17 Feb 07:15"; to the quarter.
[[nodiscard]] std::string quarter_from(base::LocalDay today, base::LocalTime t);
/// "about 07:30", "about 07:30 tomorrow", "about 07:30 on Thu", to the quarter: as the work that waits for it
/// is told, so that no wait seems to end after it.
[[nodiscard]] std::string about(base::LocalDay today, base::LocalTime t);
/// "45 min", "2 h", "3 h 15 min", to the quarter hour; under a quarter: "a few minutes"; from a
/// day on "1 day 16 h".
[[nodiscard]] std::string duration(std::chrono::seconds length);
/// "10 h 40 min", to the minute: for light, which is known that well.
[[nodiscard]] std::string duration_minutes(std::chrono::seconds length);

/// First letter made a capital.
[[nodiscard]] std::string capital(std::string text);
/// "Tue".
[[nodiscard]] std::string weekday(base::LocalDay day);

}  // namespace weatherstruck::render
