package work_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/graph/path"
	"gonum.org/v1/gonum/graph/simple"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/work"
)

// textbook is a team for each task, day and night, so that only the network counts.
var textbook = work.Team{People: 1, Daily: unit.Hours(24), DaysPerWeek: 7, Many: true}

func days(d float64) unit.Time { return unit.Days(d) }

func byID(planned []work.Planned) map[string]work.Planned {
	made := map[string]work.Planned{}
	for _, p := range planned {
		made[p.ID] = p
	}
	return made
}

// A worked exercise of operations management (14 activities with three time estimates), as answered at wizedu.com/questions/717873: read
// in an excerpt that gives all means, and early start, late start and slack of A to F. Means are printed to 0.01, hence the tolerance of
// three such roundings along a path; the answer's times are those of the unrounded means (a + 4m + b)/6, which are used here.
func TestNetworkOfATextbook(t *testing.T) {
	mean := func(a, m, b float64) unit.Time { return days((a + 4*m + b) / 6) }
	task := func(id string, labour unit.Time, after ...string) work.Task {
		return work.Task{ID: id, Labour: labour, After: after}
	}
	planned, err := work.Schedule(nil, []work.Task{
		task("A", mean(5, 5, 7)), task("B", mean(1, 2, 5)), task("C", mean(5, 5, 5), "A"), task("D", mean(4, 8, 13), "A"),
		task("E", mean(1, 10, 17), "B", "C"), task("F", mean(1, 5, 7), "D"), task("G", mean(2, 6, 9), "D"), task("H", mean(4, 4, 6), "E", "F"),
		task("I", mean(2, 7, 10), "G", "H"), task("J", mean(2, 4, 7), "I"), task("K", mean(6, 10, 13), "I"), task("L", mean(2, 6, 6), "J"),
		task("M", mean(2, 2, 3), "K"), task("N", mean(7, 7, 12), "L", "M"),
	}, textbook, nil)
	require.NoError(t, err)
	of := byID(planned)
	const printed = 0.02 // days
	for id, want := range map[string]struct{ start, finish, slack float64 }{
		"A": {0, 5.33, 0}, "B": {0, 2.33, 8}, "C": {5.33, 10.33, 0}, "D": {5.33, 13.5, 1.83}, "E": {10.33, 20, 0}, "F": {13.5, 18.17, 1.83},
	} {
		assert.InDelta(t, want.start, of[id].Begin.Days(), printed, id)
		assert.InDelta(t, want.finish, of[id].End.Days(), printed, id)
		assert.InDelta(t, want.slack, of[id].Float.Days(), printed, id)
		assert.Equal(t, want.slack < 1, of[id].Critical, id)
	}
}

// The end of a network is its longest path, which gonum v0.17 finds as the shortest path of negated lengths (Bellman and Ford), another
// method by other hands. The float of a task is what the longest path through it leaves.
func TestNetworkAgainstGonum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 12).Draw(t, "tasks")
		g := simple.NewWeightedDirectedGraph(0, math.Inf(1))
		from, to := simple.Node(2*n), simple.Node(2*n+1)
		g.AddNode(from)
		g.AddNode(to)
		tasks := make([]work.Task, n)
		edge := func(a, b simple.Node, length float64) { g.SetWeightedEdge(simple.WeightedEdge{F: a, T: b, W: -length}) }
		for i := range tasks {
			tasks[i] = work.Task{ID: fmt.Sprint(i), Labour: days(float64(rapid.IntRange(1, 60).Draw(t, "labour")) / 4), Wait: days(float64(rapid.IntRange(0, 20).Draw(t, "wait")) / 2)}
			edge(simple.Node(2*i), simple.Node(2*i+1), (tasks[i].Labour + tasks[i].Wait).Days())
			edge(from, simple.Node(2*i), 0)
			edge(simple.Node(2*i+1), to, 0)
			for before := range i {
				if rapid.IntRange(0, 3).Draw(t, "after") == 0 {
					tasks[i].After = append(tasks[i].After, fmt.Sprint(before))
					edge(simple.Node(2*before+1), simple.Node(2*i), 0)
				}
			}
		}
		planned, err := work.Schedule(nil, tasks, textbook, nil)
		require.NoError(t, err)
		ahead, ok := path.BellmanFordFrom(from, g)
		require.True(t, ok)
		end := -ahead.WeightTo(to.ID())
		const halving = 1e-4 // days: a second is let pass, and floats are halved to less
		latest := 0.0
		for id, p := range byID(planned) {
			latest = max(latest, p.Ready.Days())
			var i int
			_, err := fmt.Sscan(id, &i)
			require.NoError(t, err)
			behind, ok := path.BellmanFordFrom(simple.Node(2*i), g)
			require.True(t, ok)
			assert.InDelta(t, -ahead.WeightTo(int64(2*i)), p.Begin.Days(), halving, id)
			assert.InDelta(t, end+ahead.WeightTo(int64(2*i))+behind.WeightTo(to.ID()), p.Float.Days(), halving, id)
		}
		assert.InDelta(t, end, latest, halving)
	})
}

// Laws of one team on working days: nobody works on two tasks at once, outside hours or at weekends; nothing begins before what it
// waits for; and all labour is done.
func TestOneTeamKeepsItsHours(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		team := work.Team{
			People: rapid.IntRange(1, 4).Draw(t, "people"), Daily: unit.Hours(float64(rapid.IntRange(4, 10).Draw(t, "daily"))),
			DaysPerWeek: rapid.IntRange(1, 7).Draw(t, "week"), FirstWeekday: rapid.IntRange(0, 6).Draw(t, "weekday"),
		}
		n := rapid.IntRange(1, 10).Draw(t, "tasks")
		tasks := make([]work.Task, n)
		for i := range tasks {
			tasks[i] = work.Task{ID: fmt.Sprint(i), Labour: unit.Hours(float64(rapid.IntRange(1, 60).Draw(t, "labour")) / 2), Wait: days(float64(rapid.IntRange(0, 8).Draw(t, "wait")))}
			if i > 0 && rapid.Bool().Draw(t, "after") {
				tasks[i].After = []string{fmt.Sprint(rapid.IntRange(0, i-1).Draw(t, "which"))}
			}
		}
		planned, err := work.Schedule(nil, tasks, team, nil)
		require.NoError(t, err)
		of := byID(planned)
		const second = 1.0 / 86400
		for i, p := range planned {
			if i > 0 {
				assert.GreaterOrEqual(t, p.Begin.Days(), planned[i-1].End.Days()-second, "two tasks at once")
			}
			day := int(math.Floor(p.Begin.Days()))
			assert.Less(t, (team.FirstWeekday+day)%7, team.DaysPerWeek, "works on a day off")
			for _, before := range p.After {
				assert.GreaterOrEqual(t, p.Begin.Days(), of[before].Ready.Days()-second)
			}
			assert.InDelta(t, p.Labour.Hours()/float64(team.People), p.Work.Hours(), 1e-9)
			assert.GreaterOrEqual(t, (p.End - p.Begin).Hours(), p.Work.Hours()-1e-6)
			assert.GreaterOrEqual(t, p.Float, unit.Time(0))
			assert.LessOrEqual(t, p.FirstDay(), p.LastDay())
			assert.LessOrEqual(t, p.LastDay(), p.ReadyDay())
		}
	})
}

// A day's work that begins on Friday afternoon ends on Monday, and mortar cures over the weekend: counted on a calendar by hand.
func TestWeekendsAreForWaitingOnly(t *testing.T) {
	friday := work.Team{People: 1, Daily: unit.Hours(8), DaysPerWeek: 5, FirstWeekday: 4}
	planned, err := work.Schedule(nil, []work.Task{
		{ID: "bed", Labour: unit.Hours(12), Wait: days(7)}, {ID: "fill", Labour: unit.Hours(1), After: []string{"bed"}},
	}, friday, nil)
	require.NoError(t, err)
	of := byID(planned)
	assert.Equal(t, 1, of["bed"].FirstDay())
	assert.Equal(t, 4, of["bed"].LastDay(), "8 h on Friday, 4 h on Monday")
	assert.Equal(t, 11, of["fill"].FirstDay(), "a week after Monday noon")
	assert.InDelta(t, 12, (of["fill"].Begin - days(10)).Hours(), 1e-9, "at noon")
}

func TestWhatCannotBeOrderedIsSaid(t *testing.T) {
	_, err := work.Schedule(nil, []work.Task{{ID: "a", After: []string{"b"}}, {ID: "b", After: []string{"a"}}}, textbook, nil)
	var errs input.Errors
	require.ErrorAs(t, err, &errs)
	assert.Len(t, errs, 2)
	_, err = work.Schedule(nil, []work.Task{{ID: "a", After: []string{"gone"}}, {ID: "a", Labour: unit.Time(math.NaN())}}, work.Team{}, nil)
	require.ErrorAs(t, err, &errs)
	assert.Len(t, errs, 6, "%v", errs)
	_, err = work.Schedule(nil, []work.Task{{ID: "a", Labour: days(1)}}, textbook, func() bool { return true })
	assert.ErrorIs(t, err, work.ErrStopped)
}

// Whatever there is on a job, mortar cures a week before water runs over it, tap water is treated before fish, and fish come last.
func TestTasksOfAPondKeepTheirOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		yes := func(what string) bool { return rapid.Bool().Draw(t, what) }
		j := work.Job{
			Dug: unit.CubicMetres(4), Digger: work.ByHand, Covered: unit.SquareMetres(20), Circuit: yes("circuit"), Mains: yes("mains"),
			Chlorine: yes("chlorine"), Plants: yes("plants"), Spoil: yes("spoil"), FillTime: unit.Hours(4), StockingSteps: rapid.IntRange(0, 3).Draw(t, "steps"),
		}
		j.Sills = rapid.IntRange(0, 3).Draw(t, "sills")
		if yes("edge") {
			j.Edge = unit.Metres(12)
		}
		if yes("turf") {
			j.Turf = unit.SquareMetres(9)
		}
		if yes("stone") {
			j.Stone = unit.Kilograms(400)
		}
		team := work.Team{People: 2, Daily: unit.Hours(7), DaysPerWeek: 5}
		planned, err := work.Schedule(nil, work.Tasks(nil, j), team, nil)
		require.NoError(t, err)
		of := byID(planned)
		after := func(later, earlier string, least float64) {
			l, ok := of[later]
			e, also := of[earlier]
			if ok && also {
				assert.GreaterOrEqual(t, (l.Begin - e.End).Days(), least-1e-6, "%s after %s", later, earlier)
			}
		}
		if turf, ok := of["turf"]; ok {
			assert.LessOrEqual(t, turf.End, of["dig"].Begin, "turf first")
		}
		after("lining", "underlay", 0)
		after("underlay", "dig", 0)
		for _, mortar := range []string{"edging", "fall"} {
			after("fill", mortar, 7)
			after("run", mortar, 7)
		}
		after("treat", "fill", 4.0/24)
		after("run", "mains", 0)
		for i := 1; i <= j.StockingSteps; i++ {
			step := fmt.Sprintf("stock_%d", i)
			after(step, "treat", 1)
			after(step, "watch", 28)
			after(step, fmt.Sprintf("stock_%d", i-1), 28)
		}
	})
}

// 30 m³ by hand, at 0.4 m³ an hour, are 75 hours: by definition of a rate.
func ExampleLabourAtRate() {
	fmt.Printf("%.0f h\n", work.LabourAtRate.Eval(work.RateInput{Amount: 30, PerHour: 0.4}).Hours())
	// Output: 75 h
}
