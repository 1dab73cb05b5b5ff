#include "weatherstruck/desk/book_desk.h"

#include <algorithm>
#include <set>
#include <utility>

#include "book_hear.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/files/book_json.h"
#include "weatherstruck/works/said.h"

namespace weatherstruck::desk {

works::Entry strike(const works::EntryKey& corrects, base::Instant now) {
  const works::What what = works::Struck{};
  return {key_for(what, base::iso_utc(now), corrects), what, now, now, corrects};
}

KeptEntries keep_entries(Shelf& shelf, OpenJob& open, const std::vector<works::Entry>& entries,
                         const files::ZoneSource& zones, base::Instant now) {
  base::Faults faults;
  for (const works::Entry& entry : entries) {
    for (base::Fault& fault : works::faults_of(entry))
      faults.push_back(std::move(fault));
  }
  if (!faults.empty()) throw base::InputError("the site book", std::move(faults));
  const auto remarks_now = [&] { return works::standing_of(open.job, open.book, now).progress.remarks; };
  const std::vector<works::Remark> before = remarks_now();
  const KeptAs kept = open.kept.value();
  KeptEntries out;
  shelf.store().in_one([&] {
    out = {};
    for (const works::Entry& entry : entries) {
      record::NewEntry row;
      row.key = entry.key;
      row.kind = files::kind_of(entry.what);
      row.at = entry.at;
      row.zone = open.job.site.zone.name();
      row.noted_at = entry.noted_at;
      row.body = files::body_of(entry.what).dump();
      if (entry.corrects) {
        const auto rows = shelf.store().entries(kept.id);
        const auto named = std::find_if(rows.begin(), rows.end(),
                                        [&](const record::Entry& it) { return it.key == *entry.corrects; });
        if (named != rows.end()) row.corrects = named->id;
      }
      (shelf.store().append(kept.id, row).added ? out.added : out.there_already) += 1;
    }
  });
  open = shelf.open(open.source, zones);
  for (works::Remark& remark : remarks_now()) {
    if (std::find(before.begin(), before.end(), remark) == before.end())
      out.remarks.push_back(std::move(remark));
  }
  return out;
}

std::vector<BookLine> book_lines(const OpenJob& open, const works::Standing& standing, base::Instant now) {
  std::set<works::EntryKey> counting;
  for (const works::Entry& entry : works::effective(open.book).entries)
    counting.insert(entry.key);
  std::vector<BookLine> lines;
  for (const works::Entry& entry : open.book.entries()) {
    BookLine line;
    line.number = static_cast<std::int64_t>(lines.size()) + 1;
    line.entry = entry;
    line.words =
        std::holds_alternative<works::Struck>(entry.what)
            ? "struck out"
            : without_asking(works::shown_back(entry.what, entry.at, standing.list, open.job.site.zone, now));
    line.counts = counting.count(entry.key) > 0;
    lines.push_back(std::move(line));
  }
  return lines;
}

}  // namespace weatherstruck::desk
