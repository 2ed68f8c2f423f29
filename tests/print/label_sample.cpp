#include "print/label_sample.h"

namespace benchwarden::print {

document::Label drum_label() {
  document::Label label;
  label.title = "Container w1";
  label.words = "Used Oil";
  label.name = "Used damper oil";
  label.facts = {{"List of Waste code", "13 01 10", "low_code"},
                 {"Accumulation start", "", "accumulation_start", "", "to be written on by hand"},
                 {"Capacity", "205 L", "capacity_l"}};
  label.pictograms = {{"ghs08", "Health hazard (GHS08)"}, {"ghs09", "Environment (GHS09)"}};
  label.pictograms_source = "Pictograms from the data sheet of 2025-03-01";
  label.warnings = {"Keep apart from solvent, water, brake fluid"};
  label.id = "w1";
  label.code = "container/w1";
  label.foot = {"Saltmarsh Damper Works", "Emergency 112"};
  label.least = document::LabelSize{105, 148, 32'000, 2'000, "Table 1.3"};
  return label;
}

document::Label tool_label() {
  document::Label label;
  label.title = "Tool r1";
  label.words = "Regulator R1";
  label.facts = {{"Serial number", "SDW-R1", "serial_number"},
                 {"Next due", "21 December 2026", "next_due", "2026-12-21"}};
  label.facts.back().weight = document::LabelFact::Weight::kLarge;
  label.remarks = {"Due date as of 27 November 2026, see the app."};
  label.if_room = {"Open cylinder valves slowly."};
  label.id = "r1";
  label.code = "tool/r1";
  label.foot = {"Saltmarsh Damper Works"};
  return label;
}

document::Document labels(const std::vector<document::Label>& labels) {
  document::Document document;
  document.title = "Labels";
  document.form = document::Form::kLabels;
  document.furniture.not_for_issue = "NOT FOR ISSUE";
  document.furniture.signs_missing = "signs missing: {count}";
  document::Section section;
  for (const document::Label& label : labels) section.blocks.emplace_back(label);
  document.sections = {section};
  return document;
}

}  // namespace benchwarden::print
