#pragma once

#include <string>
#include <string_view>

#include "reports/corrections.h"
#include "reports/frame.h"

namespace benchwarden::reports {

std::string time_text(base::Timestamp time);  ///< "2026-11-25 14:03" unbroken; the zone is on top
std::string date_text(base::Timestamp time);  ///< "2026-11-25"

/// Turns what the figures name by id or code into what people call it.
class Texts {
 public:
  Texts(const Frame& frame, const ReportWording& wording) : frame_(frame), wording_(wording) {}

  [[nodiscard]] std::string person(const Person& person) const;
  [[nodiscard]] std::string kind(const std::string& kind) const;
  /// `path`: "oil-drained/volume_ml".
  [[nodiscard]] std::string label(const std::string& path) const;
  [[nodiscard]] std::string value(const std::string& path, const entries::FieldValue& value) const;
  /// "Volume: 62 mL".
  [[nodiscard]] std::string labelled(const std::string& path,
                                     const entries::FieldValue& value) const;
  [[nodiscard]] std::string quantity(const quantities::Quantity& quantity) const;
  [[nodiscard]] std::string thing(const std::string& id, const std::string& name) const;
  /// "Corrected by entry 61 (…, Bench B): Volume 620 mL → 62 mL. Reason: …".
  [[nodiscard]] std::string correction(const CorrectionFigures& correction) const;
  [[nodiscard]] const ReportWording& wording() const { return wording_; }

 private:
  [[nodiscard]] std::string title(const std::string& path, std::string_view fallback) const;
  [[nodiscard]] std::string scalar(const std::string& path, const entries::Scalar& value) const;
  [[nodiscard]] std::string list(const std::string& path, const entries::List& list) const;
  [[nodiscard]] std::string changed(const std::string& kind, const FieldChange& change) const;
  [[nodiscard]] std::string given(const std::string& path,
                                  const std::optional<entries::FieldValue>& value) const;

  const Frame& frame_;
  const ReportWording& wording_;
};

}  // namespace benchwarden::reports
