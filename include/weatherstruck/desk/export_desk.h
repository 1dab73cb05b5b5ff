#pragma once
// Everything that the record holds of one job, in forms that other programmes read.
#include <string>
#include <vector>

#include "weatherstruck/desk/shelf.h"
#include "weatherstruck/files/json.h"

namespace weatherstruck::desk {

/// One document: every version of the job's own, his, the book with its corrections, every forecast for the
/// place, the newest plan and calendar, the invoices as they were issued, and which photographs go with which
/// line, where their files lie and whether they are whole. What is JSON in the record is JSON in it; moments
/// are UTC.
/// @pre open.kept
/// @throws record::RecordError
[[nodiscard]] files::Json export_job(Shelf& shelf, const OpenJob& open, base::Instant now);

struct NamedTable {
  std::string name;  ///< of its file: "book.csv"
  std::string text;
};
/// The same as tables for a spreadsheet, as far as rows can hold it: book.csv (every entry, what it says as
/// JSON in its last column), work.csv (each task and how it stands), materials.csv, plan.csv (each stretch of
/// work of the newest plan), covers.csv, invoices.csv, photographs.csv. A table of which there is nothing has
/// its head alone.
/// @pre open.kept
[[nodiscard]] std::vector<NamedTable> export_tables(Shelf& shelf, const OpenJob& open, base::Instant now);

}  // namespace weatherstruck::desk
