#pragma once

#include <string>

#include "document/document.h"

namespace benchwarden::print {

/// A document with every kind of block, each text in it being `text`.
document::Document every_block_saying(const std::string& text);

/// Every kind of block, in use: contents, links to rows, a checklist, a code, bars, an index of
/// the `rows` entries its table is about.
document::Document linked_document(int rows);

/// `count` bars as the months of a stream.
document::BarChart sample_bars(int count);

}  // namespace benchwarden::print
