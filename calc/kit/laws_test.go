package kit

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func find(t *rapid.T, q Question, r Range, keep Set) Result {
	f, err := NewFinder(q, r)
	require.NoError(t, err)
	found, err := f.Find(keep, nil)
	require.NoError(t, err)
	return found
}

// Laws: a greater budget loses no set of those that were best, and one more pump never makes the best dearer.
func TestMoreToSpendAndMoreToChooseFromNeverHurt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q, r := drawQuestion(t), drawRange(t)
		q.Budget = 800
		before := find(t, q, r, Free())
		more := q
		more.Budget = 1600
		after := find(t, more, r, Free())
		for _, c := range before.Best {
			same := func(o Candidate) bool { return o.Set == c.Set }
			assert.True(t, slices.ContainsFunc(after.Best, same), "%+v", c.Set)
		}
		r.Pumps = append(slices.Clip(r.Pumps), drawPump(t))
		wider := find(t, q, r, Free())
		if len(before.Best) > 0 {
			require.NotEmpty(t, wider.Best)
			assert.LessOrEqual(t, wider.Best[0].Cost.Total, before.Best[0].Cost.Total)
		}
	})
}

// Law: what is owned already of the best set makes it no dearer. Law: a mend works, and what it changes is what it says.
func TestOwningNeverRaisesThePriceAndMendsWork(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q, r := drawQuestion(t), drawRange(t)
		q.Beside = false
		best := find(t, q, r, Free()).Best
		if len(best) == 0 {
			return
		}
		first := best[0]
		owning, keep := r.With(Owned{Pump: &r.Pumps[first.Pump]})
		owned := find(t, q, owning, keep).Best
		require.NotEmpty(t, owned)
		assert.LessOrEqual(t, owned[0].Cost.Total, first.Cost.Total)

		d, err := NewDesk(Questions{One: q, Keep: Free()}, r)
		require.NoError(t, err)
		spoilt := first.Put(PumpKind, rapid.IntRange(0, len(r.Pumps)-1).Draw(t, "other pump"))
		c, err := d.Judge(spoilt, OnePump, Free())
		require.NoError(t, err)
		m, err := d.Mend(c, nil)
		require.NoError(t, err)
		require.NotNil(t, m, "the pump of the best set mends it")
		again, err := d.Judge(m.Set, OnePump, Free())
		require.NoError(t, err)
		assert.True(t, again.Works())
		assert.LessOrEqual(t, len(m.Changed), 1)
		for k := range Kinds {
			assert.Equal(t, slices.Contains(m.Changed, k), m.Of(k) != spoilt.Of(k))
		}
	})
}
