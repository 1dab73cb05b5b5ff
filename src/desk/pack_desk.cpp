#include "weatherstruck/desk/pack_desk.h"

#include "weatherstruck/desk/forecast_shelf.h"

namespace weatherstruck::desk {

record::PackedJob pack_job(Shelf& shelf, const OpenJob& open, const std::string& program, base::Instant now,
                           record::LostOnes lost) {
  return shelf.store().pack(open.kept.value().id, place_key(open.job.site), program, now, lost);
}

record::Unpacked unpack_job(Shelf& shelf, const std::string& bytes, const std::filesystem::path& source,
                            const files::ZoneSource& zones, base::Instant now) {
  record::Unpacked done;
  record::Store& store = shelf.store();
  store.in_one([&] {
    done = store.unpack(bytes, source, now);
    (void)shelf.open(done.label.job, zones);
  });
  return done;
}

}  // namespace weatherstruck::desk
