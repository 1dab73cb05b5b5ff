#pragma once
// A page printed to PDF by a program of the system that prints HTML.
#include <string>

namespace weatherstruck::app {

/// By the first of weasyprint, wkhtmltopdf and chromium that is found; the file is whole or is not there.
/// @throws base::InputError "no-pdf-program" where none is, "no-pdf" where it failed or took over three
/// minutes, "unwritable"
void write_pdf(const std::string& path, const std::string& html);

}  // namespace weatherstruck::app
