#include "http/given_certificates.h"

#include <fstream>
#include <utility>

#include "base/text.h"
#include "http/certified_key.h"

namespace benchwarden::http {
namespace {

base::Error invalid(const std::filesystem::path& file, const std::string& what) {
  return {base::ErrorCode::kInvalid, file.string() + ": " + what};
}

base::Result<std::string> read(const std::filesystem::path& file) {
  // A pipe or a device would keep us waiting.
  if (std::error_code failure; !std::filesystem::is_regular_file(file, failure)) {
    return invalid(file, failure ? failure.message() : "is no regular file");
  }
  std::ifstream stream(file, std::ios::binary);
  std::string bytes(kPemBytesMax + 1, '\0');
  stream.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  if (!stream && !stream.eof()) return invalid(file, "cannot be read");
  bytes.resize(static_cast<std::size_t>(stream.gcount()));
  if (bytes.size() > kPemBytesMax) return invalid(file, "longer than 64 KiB");
  return bytes;
}

}  // namespace

base::Result<std::unique_ptr<GivenCertificates>> GivenCertificates::open(const Files& files,
                                                                         const std::string& name,
                                                                         const base::Clock& clock) {
  std::unique_ptr<GivenCertificates> opened(new GivenCertificates(files, name, clock));
  auto texts = opened->read_texts();
  if (!texts) return texts.error();
  auto first = opened->accept(*texts);
  if (!first) return first.error();
  opened->texts_ = *std::move(texts);
  opened->serving_ = std::make_shared<ServingCertificate>(*std::move(first));
  return opened;
}

GivenCertificates::GivenCertificates(Files files, std::string name, const base::Clock& clock)
    : files_(std::move(files)), name_(std::move(name)), clock_(clock) {}

base::Result<GivenCertificates::Texts> GivenCertificates::read_texts() const {
  auto certificate = read(files_.certificate);
  if (!certificate) return certificate.error();
  auto key = read(files_.key);
  if (!key) return key.error();
  return Texts{*std::move(certificate), *std::move(key)};
}

base::Result<CertifiedKey> GivenCertificates::accept(const Texts& texts) const {
  auto certified = read_certified_key(texts.certificate, texts.key);
  if (!certified) {
    return invalid(files_.certificate,
                   "with the key in " + files_.key.string() + ": " + certified.error().detail);
  }
  if (!is_for_name(*certified, name_)) {
    return invalid(files_.certificate, "not for the name '" + name_ + "' but for " +
                                           base::join(names_in(*certified), ", ") +
                                           "; accepted: one of these as the setting name");
  }
  if (clock_.now() >= ends_at(*certified)) {
    return invalid(files_.certificate,
                   "its time ended at " + base::format_rfc3339_utc(ends_at(*certified)));
  }
  return certified;
}

base::Result<CertificateSource::Refreshed> GivenCertificates::refresh() {
  auto texts = read_texts();
  if (!texts) return texts.error();
  if (*texts == texts_) return Refreshed::kNothing;
  auto next = accept(*texts);
  if (!next) return next.error();
  texts_ = *std::move(texts);
  serving_->put(*std::move(next));
  return Refreshed::kRenewed;
}

}  // namespace benchwarden::http
