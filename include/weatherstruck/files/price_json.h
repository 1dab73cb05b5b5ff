#pragma once
// The member "price" of a job document: what was agreed with the customer.
#include "weatherstruck/files/json.h"
#include "weatherstruck/files/reader.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::files {

[[nodiscard]] works::Price read_price(ObjectReader from);
[[nodiscard]] Json price_json(const works::Price& price);

}  // namespace weatherstruck::files
