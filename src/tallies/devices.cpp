#include "tallies/devices.h"

#include <iterator>
#include <utility>

#include "tallies/bytes.h"

namespace benchwarden::tallies {

bool NumberRanges::add(std::uint64_t number) {
  auto next = ranges_.upper_bound(number);
  if (next != ranges_.begin()) {
    const auto before = std::prev(next);
    if (number <= before->second) return false;
    if (number == before->second + 1) {
      before->second = number;
      if (next != ranges_.end() && next->first == number + 1) {
        before->second = next->second;
        ranges_.erase(next);
      }
      return true;
    }
  }
  std::uint64_t last = number;
  if (next != ranges_.end() && next->first == number + 1) {
    last = next->second;
    next = ranges_.erase(next);
  }
  ranges_.emplace_hint(next, number, last);
  return true;
}

std::vector<NumberRange> NumberRanges::all() const {
  std::vector<NumberRange> list;
  for (const auto& [from, to] : ranges_) list.push_back({from, to});
  return list;
}

std::vector<NumberRange> NumberRanges::gaps_from(std::uint64_t first) const {
  std::vector<NumberRange> gaps;
  for (const auto& [from, to] : ranges_) {
    if (from > first) gaps.push_back({first, from - 1});
    if (to >= first) first = to + 1;
  }
  return gaps;
}

std::uint64_t NumberRanges::highest() const {
  return ranges_.empty() ? 0 : std::prev(ranges_.end())->second;
}

void NumberRanges::write(ByteWriter& writer) const {
  writer.number(ranges_.size());
  for (const auto& [from, to] : ranges_) {
    writer.number(from);
    writer.number(to);
  }
}

NumberRanges NumberRanges::read(ByteReader& reader) {
  NumberRanges numbers;
  const std::size_t count = reader.count();
  for (std::size_t i = 0; i < count && !reader.failed(); ++i) {
    const std::uint64_t from = reader.number();
    const std::uint64_t to = reader.number();
    const bool apart =
        numbers.ranges_.empty() || (from > numbers.highest() && from - numbers.highest() > 1);
    if (to < from || !apart) reader.fail();
    numbers.ranges_.emplace_hint(numbers.ranges_.end(), from, to);
  }
  return numbers;
}

void Devices::post(const SentBy& sent_by) {
  if (sent_by.device.empty()) return;
  DeviceTold& told = devices_[sent_by.device];
  ++told.entries;
  if (sent_by.number && !told.received.add(*sent_by.number)) told.repeated.add(*sent_by.number);
}

void Devices::write(ByteWriter& writer) const {
  writer.number(devices_.size());
  for (const auto& [id, told] : devices_) {
    writer.text(id);
    writer.number(told.entries);
    told.received.write(writer);
    told.repeated.write(writer);
  }
}

Devices Devices::read(ByteReader& reader) {
  Devices devices;
  const std::size_t count = reader.count();
  for (std::size_t i = 0; i < count && !reader.failed(); ++i) {
    std::string id = reader.text();
    if (!devices.devices_.empty() && id <= devices.devices_.rbegin()->first) reader.fail();
    DeviceTold told;
    told.entries = reader.number();
    told.received = NumberRanges::read(reader);
    told.repeated = NumberRanges::read(reader);
    devices.devices_.emplace(std::move(id), std::move(told));
  }
  return devices;
}

}  // namespace benchwarden::tallies
