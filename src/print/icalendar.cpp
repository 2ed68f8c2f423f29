#include "print/icalendar.h"

#include <algorithm>
#include <string_view>

#include "print/utf8.h"

namespace benchwarden::print {
namespace {

/// RFC 5545 section 3.1: at most so many octets in a line, its end not counted.
constexpr std::size_t kLineOctetsMax = 75;

/// How often a program may come again: common practice, no source.
constexpr std::string_view kRefresh = "REFRESH-INTERVAL;VALUE=DURATION:PT6H";

bool continues_sign(char byte) { return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U; }

/// Where the line that starts at `from` must break: never inside the octets of one sign.
std::size_t break_after(std::string_view line, std::size_t from, std::size_t octets) {
  if (line.size() - from <= octets) return line.size();
  std::size_t end = from + octets;
  while (continues_sign(line[end])) --end;
  return end;
}

/// One content line, folded. The blank that begins a continuation counts as one of its octets.
void put(std::string& bytes, std::string_view line) {
  std::size_t from = 0;
  std::size_t room = kLineOctetsMax;
  while (from < line.size()) {
    const std::size_t end = break_after(line, from, room);
    bytes += from == 0 ? "" : " ";
    bytes += line.substr(from, end - from);
    bytes += "\r\n";
    from = end;
    room = kLineOctetsMax - 1;
  }
}

char32_t without_control(char32_t sign) {
  const bool kept = sign == U'\n' || sign == U'\t';
  return (sign < 0x20 && !kept) || sign == 0x7F ? kReplacement : sign;
}

/// A value of the type TEXT (RFC 5545 section 3.3.11), its lines ended by line feeds only.
std::string text_value(std::string_view text) {
  std::u32string escaped;
  for (const char32_t sign : decode_utf8(text)) {
    if (sign == U'\r') continue;
    if (sign == U'\\' || sign == U';' || sign == U',') escaped += U'\\';
    escaped += sign == U'\n' ? std::u32string(U"\\n") : std::u32string(1, without_control(sign));
  }
  return encode_utf8(escaped);
}

/// "20261130"
std::string date_value(base::CivilDate day) {
  std::string text = base::format_date(day);
  text.erase(std::remove(text.begin(), text.end(), '-'), text.end());
  return text;
}

/// "20261125T091500Z", whole seconds.
std::string time_value(base::Instant instant) {
  std::string text = base::format_rfc3339_utc(instant).substr(0, 19);
  text.erase(std::remove_if(text.begin(), text.end(), [](char c) { return c == '-' || c == ':'; }),
             text.end());
  return text + "Z";
}

void put_event(std::string& bytes, const CalendarItem& item) {
  put(bytes, "BEGIN:VEVENT");
  put(bytes, "UID:" + text_value(item.uid));
  // Without a METHOD this is when the event was last revised: RFC 5545 section 3.8.7.2.
  put(bytes, "DTSTAMP:" + time_value(item.last_changed));
  put(bytes, "DTSTART;VALUE=DATE:" + date_value(item.day));
  put(bytes, "SUMMARY:" + text_value(item.summary));
  if (!item.description.empty()) put(bytes, "DESCRIPTION:" + text_value(item.description));
  put(bytes, "TRANSP:TRANSPARENT");  // what is due takes nobody's time of the day
  put(bytes, "END:VEVENT");
}

/// A calendar holds at least one component (RFC 5545 section 3.6); where nothing is due that is
/// the description of a time zone, which shows nothing.
void put_nothing(std::string& bytes) {
  for (const std::string_view line :
       {"BEGIN:VTIMEZONE", "TZID:Etc/UTC", "BEGIN:STANDARD", "DTSTART:19700101T000000",
        "TZOFFSETFROM:+0000", "TZOFFSETTO:+0000", "END:STANDARD", "END:VTIMEZONE"}) {
    put(bytes, line);
  }
}

}  // namespace

std::string to_icalendar(const std::string& name, const std::vector<CalendarItem>& items) {
  std::string bytes;
  put(bytes, "BEGIN:VCALENDAR");
  put(bytes, "VERSION:2.0");
  put(bytes, "PRODID:-//Benchwarden//What is due//EN");
  put(bytes, "NAME:" + text_value(name));
  put(bytes, kRefresh);
  for (const CalendarItem& item : items) put_event(bytes, item);
  if (items.empty()) put_nothing(bytes);
  put(bytes, "END:VCALENDAR");
  return bytes;
}

}  // namespace benchwarden::print
