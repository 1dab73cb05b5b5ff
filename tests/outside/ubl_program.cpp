// Writes the samples of electronic invoices into a folder, for judges that are not ours.
// usage: outside_ubl_program FOLDER
#include <fstream>
#include <iostream>
#include <string>

#include "files/ubl_samples.h"
#include "weatherstruck/files/invoice_ubl.h"

int main(int count, char** words) {
  if (count != 2) {
    std::cerr << "usage: outside_ubl_program FOLDER\n";
    return 2;
  }
  int number = 0;
  for (const weatherstruck::account::Invoice& invoice : weatherstruck::files::ubl_samples()) {
    const std::string kind = invoice.credited ? "credit-note-" : "invoice-";
    std::ofstream out(std::string(words[1]) + "/" + kind + std::to_string(++number) + ".xml",
                      std::ios::binary);
    out << weatherstruck::files::invoice_ubl(invoice);
    if (!out.flush()) return 1;
  }
  return 0;
}
