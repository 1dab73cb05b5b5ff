#include <sys/stat.h>
#include <unistd.h>

#include <cstdlib>
#include <fstream>
#include <iterator>

#include "record/scratch.h"

namespace weatherstruck::record {
namespace {

namespace fs = std::filesystem;

constexpr uid_t nobody = 65534;

}  // namespace

Scratch::Scratch() {
  std::string pattern = (fs::temp_directory_path() / "weatherstruck-record-XXXXXX").string();
  if (mkdtemp(pattern.data()) == nullptr) throw std::runtime_error("no folder for the test");
  folder_ = pattern;
}

Scratch::~Scratch() {
  std::error_code ignored;
  fs::permissions(folder_, fs::perms::owner_all, ignored);
  fs::permissions(folder_ / "data", fs::perms::owner_all, ignored);
  fs::remove_all(folder_, ignored);
}

WithoutRoot::WithoutRoot(const fs::path& folder) {
  if (geteuid() != 0) return;
  bool given = chown(folder.c_str(), nobody, nobody) == 0;
  for (const fs::directory_entry& entry : fs::recursive_directory_iterator(folder)) {
    given = chown(entry.path().c_str(), nobody, nobody) == 0 && given;
  }
  dropped_ = seteuid(nobody) == 0;
  if (!given || !dropped_) throw std::runtime_error("the rights of root could not be dropped");
}

WithoutRoot::~WithoutRoot() {
  if (dropped_ && seteuid(0) != 0) std::abort();
}

JobId add_wall(Store& store) {
  return store.add_job("wall", R"({"name":"wall"})", 1, at_minute(0));
}

NewPlan plan_for(Store& store, JobId job) {
  if (!store.latest_forecast("wall", "file")) {
    NewForecast forecast;
    forecast.place = "wall";
    forecast.source = "file";
    forecast.body = "rain";
    forecast.fetched_at = at_minute(1);
    store.put_forecast(forecast);
  }
  NewPlan plan;
  plan.job = job;
  plan.job_version = store.job("wall").value().document.version;
  if (const auto person = store.person()) plan.person_version = person->version;
  plan.book_revision = store.book_revision(job);
  plan.forecast = store.latest_forecast("wall", "file").value().id;
  plan.program = "0.1.0";
  plan.zones = "2026a";
  plan.made_at = at_minute(2);
  plan.bytes = std::string("pl\0an", 5);
  return plan;
}

std::string bytes_of(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

void write_bytes(const fs::path& path, const std::string& bytes) {
  std::ofstream(path, std::ios::binary | std::ios::trunc) << bytes;
}

unsigned rights(const fs::path& path) {
  struct stat about {};
  if (stat(path.c_str(), &about) != 0) return 0;
  return about.st_mode & 0777U;
}

}  // namespace weatherstruck::record
