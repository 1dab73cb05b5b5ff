#pragma once
// How a mortar behaves in the joint, by class and binder: how soon it stiffens, when it withstands a frost,
// how long a mix can be used. The hours themselves are physics (matter/mortar.h); here stands what the mix
// changes of them. What is mixed of what stands in the table of mortars (materials.h).
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "weatherstruck/base/quantity.h"
#include "weatherstruck/matter/mortar.h"
#include "weatherstruck/trade/kinds.h"
#include "weatherstruck/trade/source.h"

namespace weatherstruck::trade {

struct MortarBehaviour {
  std::optional<MortarClass> mortar;  ///< nullopt: of whichever class, with this binder
  Binder binder;
  double stiffening;       ///< time to thumbprint hard against matter::thumbprint_hours; 1 or more
  base::Hours frost_safe;  ///< at 5 degrees or warmer, until it withstands one freeze; colder takes longer
  std::optional<base::Hours> life;  ///< in the tub; nullopt: the limit mortar-life, which is of cement
  Source stiffening_source;
  Source frost_source;
};

/// Every row: cement by class, cement and lime by class, hydraulic lime.
[[nodiscard]] std::span<const MortarBehaviour> mortar_behaviours();
[[nodiscard]] const MortarBehaviour& behaviour_of(MortarClass mortar, Binder binder);

/// Hours at 20 degrees, dry and still, until the joints of this mortar are thumbprint hard.
[[nodiscard]] matter::HourRange thumbprint_hours(MortarClass mortar, Binder binder, matter::Suction suction);
/// Amount on the frost clock (matter::mortar_frost_rate) until a joint of it withstands one freeze.
[[nodiscard]] base::Hours frost_safe_amount(MortarClass mortar, Binder binder);
/// How long a mix can be used. @param limit the limit mortar-life; it binds hydraulic lime too where a job
/// sets it longer than the lime's own
[[nodiscard]] base::Hours workable_life(MortarClass mortar, Binder binder, base::Celsius air,
                                        base::Hours limit);

/// The mix for people: "M4, 1:5"; with lime "M4, 1:1:6"; "hydraulic lime 1:3". Under `us` the type of ASTM
/// C270 with the same proportions is put after it where cement and lime are mixed: "M4, 1:1:6 (type N)".
[[nodiscard]] std::string mortar_title(MortarClass mortar, Binder binder, LimitSet set);

}  // namespace weatherstruck::trade
