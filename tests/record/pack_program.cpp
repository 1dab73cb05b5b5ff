// Brings a packed job into one new record after the other and packs it away again, and says each number once
// both are done. It is made to be killed.
//   record_pack_program PACKED FOLDER
#include <unistd.h>

#include <cstdint>
#include <cstdio>
#include <exception>
#include <filesystem>
#include <string>

#include "weatherstruck/record/folder.h"
#include "weatherstruck/record/store.h"

namespace {

using namespace weatherstruck;

void bring_and_pack(const std::filesystem::path& packed, const std::filesystem::path& folder) {
  const std::string bytes = record::read_whole_file(packed);
  std::int64_t number = 1;
  while (std::filesystem::exists(folder / std::to_string(number)))
    ++number;
  for (;; ++number) {
    const std::filesystem::path place = folder / std::to_string(number);
    record::Store store(place / "record.db");
    const record::Unpacked done = store.unpack(bytes, packed, {});
    const record::JobId job = store.job(done.label.job).value().id;
    record::write_new_file(place / "again.packed",
                           store.pack(job, "wall", "0.1.0", done.label.made_at).bytes);
    if (write(STDOUT_FILENO, &number, sizeof number) != static_cast<ssize_t>(sizeof number)) return;
  }
}

}  // namespace

int main(int count, char** words) {
  if (count != 3) return 2;
  try {
    bring_and_pack(words[1], words[2]);
    return 0;
  } catch (const std::exception& error) {
    std::fprintf(stderr, "%s\n", error.what());
    return 1;
  }
}
