package work

import (
	"slices"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// A Planned task has its times, counted from midnight before the first day.
type Planned struct {
	Task
	Work              unit.Time // of the team
	Begin, End, Ready unit.Time // of the work, and of the waiting
	Next              unit.Time // when work can go on after it
	Float             unit.Time // by which it can slip without the last task slipping
	Critical          bool      // it cannot slip by a day
}

// ErrStopped says that a caller is gone before the answer is there.
const ErrStopped = stopped("stopped")

type stopped string

func (s stopped) Error() string { return string(s) }

// Schedule sets each task as early as it can be, those that can begin first before the others and else in the order of the list, and
// then says by how much each can slip: the greatest delay that leaves the end where it is, with the order kept.
//
// The error is an input.Errors, or ErrStopped where stop says so; stop may be nil.
func Schedule(t *working.Trail, tasks []Task, team Team, stop func() bool) ([]Planned, error) {
	if err := check(tasks, team).Err(); err != nil {
		return nil, err
	}
	n, err := newNetwork(t, tasks, team)
	if err != nil {
		return nil, err
	}
	made := make([]Planned, len(tasks))
	end := n.times(nil, made)
	for i := range made {
		if stop != nil && stop() {
			return nil, ErrStopped
		}
		made[i].Float = n.float(i, end)
		made[i].Next = team.open(made[i].Ready)
		made[i].Critical = made[i].Float < unit.Days(1)
	}
	slices.SortStableFunc(made, func(a, b Planned) int {
		switch {
		case a.Begin < b.Begin:
			return -1
		case a.Begin > b.Begin:
			return 1
		default:
			return 0
		}
	})
	return made, nil
}

// A network is tasks by number, in an order in which each comes after those it waits for.
type network struct {
	tasks  []Task
	team   Team
	work   []unit.Time
	before [][]int // the team's last task among them
	order  []int
}

func newNetwork(t *working.Trail, tasks []Task, team Team) (*network, error) {
	n := &network{tasks: tasks, team: team, work: make([]unit.Time, len(tasks)), before: make([][]int, len(tasks))}
	number := map[string]int{}
	for i, task := range tasks {
		number[task.ID] = i
		people := team.People
		if task.Machine || task.Others {
			people = 1
		}
		t.About(task.Name)
		n.work[i] = TeamTime.Run(t, TeamTimeInput{Labour: task.Labour, People: people})
	}
	for i, task := range tasks {
		for _, id := range task.After {
			n.before[i] = append(n.before[i], number[id])
		}
	}
	return n, n.sort()
}

// sort sets the order, one task after another as each can begin, and lets the team go from task to task in that order.
func (n *network) sort() error {
	placed := make([]bool, len(n.tasks))
	times := make([]Planned, len(n.tasks))
	var free unit.Time // when the team is
	last := -1
	for range n.tasks {
		next, at := -1, unit.Time(0)
		for i := range n.tasks {
			if placed[i] || slices.ContainsFunc(n.before[i], func(b int) bool { return !placed[b] }) {
				continue
			}
			begin := n.earliest(i, times)
			if n.byTeam(i) {
				begin = max(begin, free)
			}
			if begin = n.team.begins(n.tasks[i], begin); next < 0 || begin < at {
				next, at = i, begin
			}
		}
		if next < 0 {
			return n.circle(placed)
		}
		if n.byTeam(next) {
			if last >= 0 {
				n.before[next] = append(n.before[next], ^last) // the team comes from there, and waits for nothing
			}
			last = next
		}
		n.place(next, at, times)
		if n.byTeam(next) {
			free = times[next].End
		}
		placed[next], n.order = true, append(n.order, next)
	}
	return nil
}

// byTeam reports whether the one team does the task.
func (n *network) byTeam(i int) bool {
	return n.tasks[i].Labour > 0 && !n.tasks[i].Others && !n.team.Many
}

// begins is when a task that may begin at a moment does: work waits for the working day.
func (team Team) begins(task Task, at unit.Time) unit.Time {
	if task.Labour > 0 {
		return team.open(at)
	}
	return at
}

// earliest is when all that comes before a task is ready, or the team is there.
func (n *network) earliest(i int, times []Planned) unit.Time {
	at := n.team.start()
	for _, b := range n.before[i] {
		if b < 0 {
			at = max(at, times[^b].End)
		} else {
			at = max(at, times[b].Ready)
		}
	}
	return at
}

func (n *network) place(i int, at unit.Time, times []Planned) {
	p := &times[i]
	p.Task, p.Work, p.Begin = n.tasks[i], n.work[i], at
	p.End = n.team.done(at, n.work[i])
	p.Ready = p.End + n.tasks[i].Wait
}

// times goes through the tasks in order, each delayed as told, and gives the end of all.
func (n *network) times(delay func(task int) unit.Time, times []Planned) unit.Time {
	var end unit.Time
	for _, i := range n.order {
		at := n.team.begins(n.tasks[i], n.earliest(i, times))
		if delay != nil {
			at = n.team.begins(n.tasks[i], at+delay(i))
		}
		n.place(i, at, times)
		end = max(end, times[i].Ready)
	}
	return end
}

// float is the greatest delay of a task that leaves the end where it is. The end never comes earlier for a delay, so halving finds it.
func (n *network) float(task int, end unit.Time) unit.Time {
	scratch := make([]Planned, len(n.tasks))
	keeps := func(delay unit.Time) bool {
		const second = unit.Time(1)
		return n.times(func(i int) unit.Time {
			if i == task {
				return delay
			}
			return 0
		}, scratch) <= end+second
	}
	low, high := unit.Time(0), end+unit.Days(1)
	const halvings = 40
	for range halvings {
		if middle := (low + high) / 2; keeps(middle) {
			low = middle
		} else {
			high = middle
		}
	}
	return low
}

// circle says which tasks wait for one another.
func (n *network) circle(placed []bool) error {
	var errs input.Errors
	for i, task := range n.tasks {
		if !placed[i] {
			errs.Add("tasks", "let no task wait for itself", "%q waits for a task that waits for it", task.ID)
		}
	}
	return errs.Err()
}
