// Weather of past years, and what was reckoned from it.
#include "store_inside.h"

namespace weatherstruck::record {

PastId Store::put_past(const NewPast& past) {
  return inside_->write([&] {
    inside_
        ->ask(
            "INSERT INTO past (region, latitude, longitude, attribution, hours_from, hours_to, bytes, "
            "made_at) "
            "VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
            std::string_view(past.region), past.latitude, past.longitude, std::string_view(past.attribution),
            past.from, past.to, Bytes{past.bytes}, past.made_at)
        .step();
    return PastId{inside_->connection.last_id()};
  });
}

std::vector<Past> Store::pasts(bool with_bytes) {
  std::vector<Past> list;
  Statement rows = inside_->ask(
      "SELECT id, region, latitude, longitude, attribution, hours_from, hours_to, made_at, CASE WHEN ? THEN "
      "bytes ELSE x'' END FROM past ORDER BY id",
      std::int64_t{with_bytes ? 1 : 0});
  while (rows.step()) {
    Past row;
    row.id = PastId{rows.integer(0)};
    row.past.region = rows.text(1);
    row.past.latitude = rows.integer(2);
    row.past.longitude = rows.integer(3);
    row.past.attribution = rows.text(4);
    row.past.from = rows.instant(5);
    row.past.to = rows.instant(6);
    row.past.made_at = rows.instant(7);
    row.past.bytes = rows.bytes(8);
    list.push_back(std::move(row));
  }
  return list;
}

void Store::keep_reckoned(std::string_view key, const std::string& bytes, base::Instant made_at) {
  inside_->write([&] {
    if (!inside_->ask("SELECT 1 FROM reckoned WHERE key = ?", key).step()) {
      inside_->ask("INSERT INTO reckoned (key, bytes, made_at) VALUES (?, ?, ?)", key, Bytes{bytes}, made_at)
          .step();
    }
    return 0;
  });
}

std::optional<std::string> Store::reckoned(std::string_view key) {
  Statement row = inside_->ask("SELECT bytes FROM reckoned WHERE key = ?", key);
  if (!row.step()) return std::nullopt;
  return row.bytes(0);
}

std::vector<std::string> Store::reckoned_under(std::string_view beginning) {
  std::vector<std::string> list;
  Statement rows = inside_->ask("SELECT bytes, key FROM reckoned WHERE key >= ? ORDER BY key", beginning);
  while (rows.step() && rows.text(1).starts_with(beginning))
    list.push_back(rows.bytes(0));
  return list;
}

}  // namespace weatherstruck::record
