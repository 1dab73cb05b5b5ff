#include "weatherstruck/desk/van_desk.h"

#include "weatherstruck/base/text.h"
#include "weatherstruck/render/quantities_sheet.h"
#include "weatherstruck/trade/materials.h"
#include "weatherstruck/works/van_list.h"

namespace weatherstruck::desk {

render::VanFacts load_van(const works::Job& job, const works::Bill& bill) {
  render::VanFacts facts;
  facts.title = job.title;
  facts.items = works::van_items(job, bill);
  facts.plan = works::van_plan(job, bill);
  facts.payload = job.kit.van_payload;
  facts.room = job.kit.van_volume;
  facts.merchant = job.supplies.merchant.has_value();
  for (const works::Delivery& delivery : job.supplies.deliveries) {
    const trade::Material* material = trade::find_material(delivery.material);
    if (material == nullptr) continue;
    facts.brought.push_back({std::string(material->title), render::amount(delivery.amount, material->unit),
                             "on the kerb " + base::day_and_time(job.site.zone.to_local(delivery.at))});
  }
  for (const works::TotalLine& line : bill.totals) {
    if (line.on_site)
      facts.brought.push_back({line.name, render::amount(line.total, line.unit), "at the work already"});
  }
  return facts;
}

}  // namespace weatherstruck::desk
