#pragma once
// A job packed away into one file, and brought in from one.
#include <filesystem>
#include <string>

#include "weatherstruck/desk/shelf.h"
#include "weatherstruck/record/packed.h"

namespace weatherstruck::desk {

/// Everything the record has of the job, with every forecast of its place and every photograph.
/// @throws record::RecordError as Store::pack
/// @pre open.kept
[[nodiscard]] record::PackedJob pack_job(Shelf& shelf, const OpenJob& open, const std::string& program,
                                         base::Instant now, record::LostOnes lost = record::LostOnes::refuse);

/// Brings it in, or what it has more than the job here; nothing where its document cannot be read.
/// @param source of the bytes
/// @throws record::RecordError as Store::unpack; base::InputError as Shelf::open
record::Unpacked unpack_job(Shelf& shelf, const std::string& bytes, const std::filesystem::path& source,
                            const files::ZoneSource& zones, base::Instant now);

}  // namespace weatherstruck::desk
