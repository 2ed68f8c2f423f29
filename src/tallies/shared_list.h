#pragma once

#include <algorithm>
#include <atomic>
#include <cassert>
#include <compare>
#include <cstddef>
#include <iterator>
#include <memory>
#include <utility>
#include <vector>

namespace benchwarden::tallies {

/// A list whose copies share what they have in common, so that a copy of a million events costs
/// microseconds and a kilobyte for every hundred of them: whoever looks at the state for long looks
/// at a copy, while the book goes on. Elements lie in chunks; one that a copy shares is cloned
/// before it is altered. Copying reads a list, altering writes it, for what threads may do at once;
/// copies may be used and dropped in any thread.
template <typename T>
class SharedList {
 public:
  class Iterator;
  using value_type = T;
  using const_iterator = Iterator;

  SharedList() = default;
  ~SharedList() = default;
  SharedList(SharedList&& other) noexcept
      : chunks_(std::move(other.chunks_)), size_(std::exchange(other.size_, 0)) {
    other.chunks_.clear();
  }
  SharedList& operator=(SharedList&& other) noexcept {
    chunks_ = std::move(other.chunks_);
    size_ = std::exchange(other.size_, 0);
    other.chunks_.clear();
    return *this;
  }
  SharedList(const SharedList& other) : chunks_(other.chunks_), size_(other.size_) {
    // Never unset: asking how many still share it would race with those that let go of it.
    for (const auto& chunk : chunks_) chunk->is_shared.store(true, std::memory_order_relaxed);
  }
  SharedList& operator=(const SharedList& other) {
    if (this != &other) *this = SharedList(other);
    return *this;
  }

  [[nodiscard]] std::size_t size() const { return size_; }
  [[nodiscard]] bool empty() const { return size_ == 0; }
  [[nodiscard]] const T& operator[](std::size_t index) const {
    return chunks_[index / kChunk]->elements[index % kChunk];
  }
  [[nodiscard]] const T& front() const { return (*this)[0]; }
  [[nodiscard]] const T& back() const { return (*this)[size_ - 1]; }
  [[nodiscard]] Iterator begin() const { return Iterator(*this, 0); }
  [[nodiscard]] Iterator end() const { return Iterator(*this, size_); }
  [[nodiscard]] auto rbegin() const { return std::make_reverse_iterator(end()); }
  [[nodiscard]] auto rend() const { return std::make_reverse_iterator(begin()); }

  /// To alter one element.
  T& at(std::size_t index) {
    assert(index < size_);
    return own(index / kChunk).elements[index % kChunk];
  }
  void push_back(T element) {
    if (size_ % kChunk == 0) chunks_.push_back(std::make_shared<Chunk>());
    own(size_ / kChunk).elements.push_back(std::move(element));
    ++size_;
  }
  /// Puts `group` in the place of [first, last). Costs what comes after `first`.
  void replace(std::size_t first, std::size_t last, const std::vector<T>& group) {
    assert(first <= last && last <= size_);
    const std::vector<T> rest(begin() + static_cast<std::ptrdiff_t>(last), end());
    cut(first);
    for (const T& element : group) push_back(element);
    for (const T& element : rest) push_back(element);
  }

  friend bool operator==(const SharedList& a, const SharedList& b) {
    return a.size_ == b.size_ && std::equal(a.begin(), a.end(), b.begin());
  }

 private:
  static constexpr std::size_t kChunk = 256;
  struct Chunk {
    std::vector<T> elements;
    std::atomic<bool> is_shared = false;
  };

  Chunk& own(std::size_t index) {
    std::shared_ptr<Chunk>& chunk = chunks_[index];
    if (chunk->is_shared.load(std::memory_order_relaxed)) {
      auto clone = std::make_shared<Chunk>();
      clone->elements = chunk->elements;
      chunk = std::move(clone);
    }
    return *chunk;
  }
  void cut(std::size_t size) {
    chunks_.resize((size + kChunk - 1) / kChunk);
    size_ = size;
    if (size % kChunk == 0) return;
    auto& elements = own(size / kChunk).elements;
    elements.erase(elements.begin() + static_cast<std::ptrdiff_t>(size % kChunk), elements.end());
  }

  std::vector<std::shared_ptr<Chunk>> chunks_;  ///< each full but the last
  std::size_t size_ = 0;
};

template <typename T>
class SharedList<T>::Iterator {
 public:
  using iterator_category = std::random_access_iterator_tag;
  using value_type = T;
  using difference_type = std::ptrdiff_t;
  using pointer = const T*;
  using reference = const T&;

  Iterator() = default;
  Iterator(const SharedList& list, std::size_t index) : list_(&list), index_(index) {}
  reference operator*() const { return (*list_)[index_]; }
  pointer operator->() const { return &(*list_)[index_]; }
  reference operator[](difference_type n) const { return *(*this + n); }
  Iterator& operator+=(difference_type n) {
    index_ += static_cast<std::size_t>(n);
    return *this;
  }
  Iterator& operator-=(difference_type n) { return *this += -n; }
  Iterator& operator++() { return *this += 1; }
  Iterator& operator--() { return *this -= 1; }
  Iterator operator++(int) {
    Iterator before = *this;
    ++*this;
    return before;
  }
  Iterator operator--(int) {
    Iterator before = *this;
    --*this;
    return before;
  }
  friend Iterator operator+(Iterator it, difference_type n) { return it += n; }
  friend Iterator operator+(difference_type n, Iterator it) { return it += n; }
  friend Iterator operator-(Iterator it, difference_type n) { return it -= n; }
  friend difference_type operator-(const Iterator& a, const Iterator& b) {
    return static_cast<difference_type>(a.index_) - static_cast<difference_type>(b.index_);
  }
  friend bool operator==(const Iterator& a, const Iterator& b) { return a.index_ == b.index_; }
  friend auto operator<=>(const Iterator& a, const Iterator& b) { return a.index_ <=> b.index_; }

 private:
  const SharedList* list_ = nullptr;
  std::size_t index_ = 0;
};

}  // namespace benchwarden::tallies
