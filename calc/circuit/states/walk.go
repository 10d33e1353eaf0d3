package states

import (
	"fmt"
	"slices"

	"example.com/pondwright/calc/circuit/tree"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/level"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// hoseContent is the water in the hoses of a row of parts up to its first check valve, and whether there is one.
func hoseContent(t *working.Trail, parts []tree.Part) (content unit.Volume, held bool) {
	for _, p := range parts {
		switch p := p.(type) {
		case tree.Hose:
			spec := p.Run.Spec()
			content += level.HoseContent.Run(t, level.HoseInput{Bore: spec.Bore, Length: spec.Length})
			if p.HoldsBack() { // where along the hose is not known, so all of it counts
				return content, true
			}
		case tree.Check:
			return content, true
		case tree.Parallel:
			all := true
			for _, path := range p.Paths {
				one, shut := hoseContent(t, path.Parts)
				content += one
				all = all && shut
			}
			if all {
				return content, true
			}
		}
	}
	return content, false
}

// holdsBack says that no water can run back through the pumps.
func holdsBack(parts []tree.Part) bool {
	return slices.ContainsFunc(parts, func(p tree.Part) bool {
		switch p := p.(type) {
		case tree.Pump:
			return p.Check
		case tree.Hose:
			return p.HoldsBack()
		case tree.Check:
			return true
		case tree.Parallel:
			return !slices.ContainsFunc(p.Paths, func(path tree.Path) bool { return !holdsBack(path.Parts) })
		}
		return false
	})
}

// intakeHolds says that no water can run back out through any intake, as behind a foot valve.
func intakeHolds(b tree.Branch) bool {
	fork, forks := b.End.(tree.Fork)
	return holdsBack(b.Parts) || forks && !slices.ContainsFunc(fork, func(b tree.Branch) bool { return !intakeHolds(b) })
}

// fromSurface checks that heights are from the pond's surface, which what runs back is told by.
func fromSurface(errs *input.Errors, path string, b tree.Branch) {
	switch end := b.End.(type) {
	case tree.Fork:
		for i, next := range end {
			fromSurface(errs, fmt.Sprintf("%s.fork.branches[%d]", path, i), next)
		}
	case tree.Surface:
		if end.Area == 0 && end.Level != 0 {
			errs.Add(path+".surface.level_m", "give all heights from the pond's surface, which is then 0, or the area of the basin that is not the pond",
				"the pond's surface lies at %g m", end.Level.Metres())
		}
	}
}

// returns says that some end of a branch lies above the pond, so that its hose empties into it.
func returns(b tree.Branch) bool {
	switch end := b.End.(type) {
	case tree.Fork:
		return slices.ContainsFunc(end, returns)
	case tree.Surface:
		return end.Level > 0
	case tree.Outlet:
		return end.Level > 0
	case tree.Box:
		return end.Inlet > 0
	}
	return false
}

// deepest is the depth of the deepest intake in the pond, down to which the pump can empty it; 0 where none is given.
func deepest(b tree.Branch) unit.Length {
	switch end := b.End.(type) {
	case tree.Fork:
		depth := unit.Length(0)
		for _, next := range end {
			depth = max(depth, deepest(next))
		}
		return depth
	case tree.Surface:
		if end.Area == 0 {
			return end.Mouth
		}
	}
	return 0
}

// boxesOf are the branches that end in a box.
func boxesOf(b tree.Branch) []tree.Branch {
	switch end := b.End.(type) {
	case tree.Fork:
		var all []tree.Branch
		for _, next := range end {
			all = append(all, boxesOf(next)...)
		}
		return all
	case tree.Box:
		return append([]tree.Branch{b}, boxesOf(end.Outlet)...)
	}
	return nil
}
