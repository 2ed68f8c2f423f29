#pragma once

#include "document/blocks.h"
#include "print/typesetter.h"

namespace benchwarden::print {

/// Each appends one block to the flow.
void add_note_box(Flow& flow, const document::NoteBox& box, const Typesetter& type);
void add_caution_box(Flow& flow, const document::CautionBox& box, const Typesetter& type);
void add_key_figures(Flow& flow, const document::KeyFigures& figures, const Typesetter& type);
void add_signature_line(Flow& flow, const document::SignatureLine& line, const Typesetter& type);

}  // namespace benchwarden::print
