#include "weatherstruck/account/change_price.h"

#include <cmath>

#include "weatherstruck/account/rounding.h"

namespace weatherstruck::account {
namespace {

base::Money for_hours(base::Hours hours, const base::Money& an_hour) {
  const auto thousandths = std::llround(hours.value() * static_cast<double>(one_unit));
  return {scaled(an_hour.minor(), thousandths, one_unit), an_hour.currency()};
}

}  // namespace

ChangePrice change_price(const works::Job& job, const Rates* rates, base::Hours before, base::Hours after,
                         const std::vector<works::Fallback>& used) {
  ChangePrice out;
  if (job.price) {
    out.by_the_hour = job.price->by_the_hour;
    out.agreed = job.price->fixed;
    if (!out.agreed) {
      for (const works::PriceStage& stage : job.price->stages)
        out.agreed = out.agreed ? *out.agreed + stage.price : stage.price;
    }
  }
  for (const works::Fallback& fallback : used) {
    if (!fallback.price) continue;
    out.taken_off = out.taken_off ? *out.taken_off + *fallback.price : *fallback.price;
  }
  if (rates == nullptr) return out;
  out.on_materials = rates->on_materials;
  out.an_hour = rates->day_work;
  if (!out.an_hour) return out;
  out.before = for_hours(before, *out.an_hour);
  out.after = for_hours(after, *out.an_hour);
  out.apart = *out.after - *out.before;
  return out;
}

}  // namespace weatherstruck::account
