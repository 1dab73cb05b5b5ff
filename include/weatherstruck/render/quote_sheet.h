#pragma once
// The offer that a customer gets before the work: what is built with its sizes, the price, what is left out
// first, what is not in it, how long it holds. Sums are those of an invoice, and it says that it is none.
#include <optional>
#include <string>
#include <vector>

#include "weatherstruck/account/invoice.h"
#include "weatherstruck/account/quote.h"
#include "weatherstruck/base/zone.h"
#include "weatherstruck/render/page.h"
#include "weatherstruck/works/expand.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::render {

struct QuoteFacts {
  const works::Job& job;
  const works::Expansion& expansion;
  const works::Bill& bill;
  const account::Terms& terms;
  const account::Offer& offer;
  const account::Invoice&
      sums;  ///< made of the offer's charges, without a number; due: the last day it holds
  const std::vector<std::string>& not_included;  ///< what he says is not
  std::optional<base::Money> deposit;            ///< asked for with the order, tax included
};

struct QuoteSheet {
  std::string title;  ///< "Quotation"; "Estimate" where the hours are billed as they come
  account::Invoice sums;
  std::string planned;  ///< "9 February 2026 to 12 February 2026"
  struct Part {
    std::string title;               ///< "The shelter"
    std::vector<std::string> sizes;  ///< clauses
  };
  std::vector<Part> built;
  std::string built_with;  ///< a sentence; may be empty
  std::vector<std::string> weather;
  std::vector<std::string> not_included;
  std::vector<std::string> terms;
};

[[nodiscard]] QuoteSheet quote_sheet_of(const QuoteFacts& facts);
[[nodiscard]] std::string quote_text(const QuoteSheet& sheet, Ink ink);
/// A whole HTML 5 document in UTF-8, without script, for a mail, a phone, and A4 paper.
[[nodiscard]] std::string quote_html(const QuoteSheet& sheet);

/// What only he reads: hours, costs, what an agreed price leaves him.
[[nodiscard]] std::string for_himself_text(const account::ForHimself& mine, Ink ink);

}  // namespace weatherstruck::render
