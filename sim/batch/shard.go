package batch

import (
	"fmt"
	"strconv"
	"strings"
)

// Shard is one of several parts of a plan, Index from 1 to Of. The zero value
// is the whole.
type Shard struct {
	Index int `json:"index"`
	Of    int `json:"of"`
}

// MaxShards is the most parts that a plan is split into.
const MaxShards = 100_000

// ParseShard reads "I/N".
func ParseShard(text string) (Shard, error) {
	first, second, ok := strings.Cut(text, "/")
	i, err1 := strconv.Atoi(strings.TrimSpace(first))
	n, err2 := strconv.Atoi(strings.TrimSpace(second))
	if !ok || err1 != nil || err2 != nil {
		return Shard{}, fmt.Errorf("expected I/N, such as 2/8, got %q", text)
	}
	s := Shard{i, n}
	return s, s.Check()
}

// Check says what is wrong with a shard.
func (s Shard) Check() error {
	switch {
	case s.Of < 1 || s.Of > MaxShards:
		return fmt.Errorf("shard %d/%d: there may be 1 to %d shards", s.Index, s.Of, MaxShards)
	case s.Index < 1 || s.Index > s.Of:
		return fmt.Errorf("there is no shard %d of %d: they count from 1 to %d", s.Index, s.Of, s.Of)
	}
	return nil
}

// Whole reports whether the shard is all of a plan that is not split.
func (s Shard) Whole() bool { return s == Shard{} }

// String writes "2/8".
func (s Shard) String() string { return fmt.Sprintf("%d/%d", s.Index, s.Of) }

// chunks returns which chunks of so many belong to the shard: from up to but
// not including to. Shards follow each other without gaps, in sequence.
func (s Shard) chunks(n int) (from, to int) {
	if s.Whole() {
		return 0, n
	}
	at := func(i int) int { return int(int64(n) * int64(i) / int64(s.Of)) }
	return at(s.Index - 1), at(s.Index)
}

// Missing returns which shards are not there and which are there more than
// once, both rising. Shards of different splits do not go together: ok is false.
func Missing(there []Shard) (missing, doubled []Shard, ok bool) {
	if len(there) == 0 {
		return nil, nil, false
	}
	of := there[0].Of
	count := make([]int, of+1)
	for _, s := range there {
		if s.Of != of || s.Check() != nil {
			return nil, nil, false
		}
		count[s.Index]++
	}
	for i := 1; i <= of; i++ {
		switch {
		case count[i] == 0:
			missing = append(missing, Shard{i, of})
		case count[i] > 1:
			doubled = append(doubled, Shard{i, of})
		}
	}
	return missing, doubled, true
}
