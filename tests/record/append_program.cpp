// Adds numbered entries, each with its photograph, to a record and says each number on standard output once
// it is kept. It is made to be killed.
//   record_append_program FILE
#include <unistd.h>

#include <cstdint>
#include <cstdio>
#include <exception>
#include <string>

#include "record/numbered_entry.h"
#include "weatherstruck/record/store.h"

namespace {

using weatherstruck::record::numbered_entry;
using weatherstruck::record::numbered_photograph;

void append_for_ever(weatherstruck::record::Store& store) {
  const auto there = store.job("wall");
  const auto job = there ? there->id : store.add_job("wall", "{}", 1, {});
  for (std::int64_t number = store.book_revision(job) + 1;; ++number) {
    // Rows and a file that must come together or not at all.
    store.in_one([&] {
      const auto entry = store.append(job, numbered_entry(number)).entry;
      store.keep_photograph(job, entry.id, numbered_photograph(number), entry.noted_at);
      store.put_sheet({job, std::nullopt, "morning", {}, std::to_string(number)});
    });
    if (write(STDOUT_FILENO, &number, sizeof number) != static_cast<ssize_t>(sizeof number)) return;
  }
}

}  // namespace

int main(int count, char** words) {
  if (count != 2) return 2;
  try {
    weatherstruck::record::Store store(words[1]);
    append_for_ever(store);
    return 0;
  } catch (const std::exception& error) {
    std::fprintf(stderr, "%s\n", error.what());
    return 1;
  }
}
