// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Searching one candidate after the other: nothing is stored, the search can be watched and stopped, and only the best are kept.
#ifndef RACKWORK_DESIGN_SEARCH_HPP
#define RACKWORK_DESIGN_SEARCH_HPP

#include "../core/scalar.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <iterator>
#include <tuple>
#include <utility>
#include <vector>

namespace rackwork {

/// How far a search has come.
struct search_progress {
    /// Candidates that have been looked at, and those of them that fit.
    std::uint64_t examined;
    std::uint64_t found;
    /// About which share of all there are, from 0 to 1.
    double share;
};

/// What a cursor says when it comes back.
enum class search_state : unsigned char {
    found,    ///< it stands on a candidate that fits
    pausing,  ///< it has looked at as many candidates as it was allowed
    exhausted ///< there are no more
};

/// A lazy range of all candidates that fit, in the order in which its cursor meets them. Each begin() is a search of its own; a candidate
/// is looked for when the iterator is advanced, and forgotten when it goes on. Memory does not grow with their number.
///
/// A cursor is a copyable class with run(budget), which looks at no more than `budget` candidates and returns a search_state, current(),
/// the candidate that it stands on, examined() and share().
template <class Cursor>
class search {
public:
    using value_type = std::remove_cvref_t<decltype(std::declval<const Cursor&>().current())>;
    /// Told from time to time how far the search has come; when it returns false the search ends, and what was just found is dropped.
    using watcher = std::function<bool(const search_progress&)>;

    explicit search(Cursor at_start) : start_(std::move(at_start)) {}

    /// The same search, watched: the watcher is called each time after so many candidates have been looked at.
    search watched_by(watcher watch, std::uint64_t every = std::uint64_t{1} << 20) const {
        search watched = *this;
        watched.watch_ = std::move(watch);
        watched.every_ = every > 0 ? every : 1;
        return watched;
    }

    /// Input iterator over what is found. Valid as long as the range that it comes from.
    class iterator {
    public:
        using iterator_category = std::input_iterator_tag;
        using iterator_concept = std::input_iterator_tag;
        using value_type = search::value_type;
        using difference_type = std::ptrdiff_t;
        using pointer = const value_type*;
        using reference = const value_type&;

        reference operator*() const { return cursor_.current(); }
        pointer operator->() const { return &cursor_.current(); }
        iterator& operator++() {
            advance();
            return *this;
        }
        void operator++(int) { advance(); }
        friend bool operator==(const iterator& i, std::default_sentinel_t) { return i.ended_; }

        /// How far this search has come.
        search_progress progress() const { return {cursor_.examined(), found_, ended_ && !stopped_ ? 1 : cursor_.share()}; }
        /// True if the watcher has stopped it.
        bool stopped() const { return stopped_; }

    private:
        friend class search;
        explicit iterator(const search& from) : range_(&from), cursor_(from.start_), until_watched_(from.every_) { advance(); }

        void advance() {
            while (!ended_) {
                const std::uint64_t before = cursor_.examined();
                const search_state state = cursor_.run(until_watched_);
                until_watched_ -= (std::min)(until_watched_, cursor_.examined() - before);
                if (state == search_state::exhausted) ended_ = true;
                if (state == search_state::found) ++found_;
                if (until_watched_ == 0) {
                    until_watched_ = range_->every_;
                    if (range_->watch_ && !range_->watch_(progress())) ended_ = stopped_ = true;
                }
                if (state == search_state::found) return;
            }
        }

        const search* range_;
        Cursor cursor_;
        std::uint64_t until_watched_;
        std::uint64_t found_ = 0;
        bool ended_ = false;
        bool stopped_ = false;
    };

    iterator begin() const { return iterator(*this); }
    std::default_sentinel_t end() const { return {}; }

private:
    Cursor start_;
    watcher watch_{};
    std::uint64_t every_ = std::uint64_t{1} << 20;
};

/// The best few of many: keeps no more than it is told to, whatever is offered. A criterion is a callable that gives a number for a
/// candidate, less being better; those named first come first, and of equals the one that was offered first is better.
template <class Candidate, class... Criteria>
class keep_best {
public:
    static_assert(sizeof...(Criteria) > 0, "the best by which criterion?");
    using score = std::tuple<std::decay_t<std::invoke_result_t<const Criteria&, const Candidate&>>...>;

    /// At most `count` are kept.
    explicit keep_best(std::size_t count, Criteria... criteria) : count_(count), criteria_(std::move(criteria)...) { kept_.reserve(count); }

    /// Offers a candidate; true if it is, for now, among the best. One whose score cannot be ordered (not a number) is never kept.
    bool offer(const Candidate& candidate) {
        entry offered{std::apply([&](const Criteria&... of) { return score{std::invoke(of, candidate)...}; }, criteria_), offered_++,
                      candidate};
        if (count_ == 0 || !(offered.points == offered.points)) return false;
        if (kept_.size() == count_) {
            if (!better(offered, kept_.front())) return false;
            std::pop_heap(kept_.begin(), kept_.end(), better);
            kept_.back() = std::move(offered);
        } else {
            kept_.push_back(std::move(offered));
        }
        std::push_heap(kept_.begin(), kept_.end(), better);
        return true;
    }

    /// Those kept so far, the best first.
    std::vector<Candidate> ranked() const {
        std::vector<entry> in_order = kept_;
        std::sort(in_order.begin(), in_order.end(), better);
        std::vector<Candidate> all;
        all.reserve(in_order.size());
        for (entry& e : in_order) all.push_back(std::move(e.candidate));
        return all;
    }

private:
    struct entry {
        score points;
        std::uint64_t order;
        Candidate candidate;
    };
    static bool better(const entry& a, const entry& b) {
        if (a.points < b.points) return true;
        if (b.points < a.points) return false;
        return a.order < b.order;
    }

    std::size_t count_;
    std::tuple<Criteria...> criteria_;
    std::uint64_t offered_ = 0;
    std::vector<entry> kept_; // a heap with the worst in front
};

/// The best `count` of what a search finds, the best first, by one or more criteria (see keep_best).
template <class Range, class... Criteria>
auto best_of(const Range& range, std::size_t count, Criteria... criteria) {
    keep_best<typename Range::value_type, Criteria...> best(count, std::move(criteria)...);
    for (const auto& candidate : range) best.offer(candidate);
    return best.ranked();
}

} // namespace rackwork

#endif
