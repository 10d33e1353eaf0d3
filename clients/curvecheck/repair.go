package main

import (
	"encoding/csv"
	"errors"
	"fmt"
	"os"
	"strconv"
	"strings"

	"example.com/pondwright/clients/curvecheck/intake"
	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
)

// sureEnough is how sure a repair has to be for the copy to have it. Those less sure are listed, and not made.
const sureEnough = 0.9

// repairs are what a file is corrected by: in memory, and so as many as there are faulty curves.
type repairs struct {
	pumps map[int]*equipmentv1.Pump
	list  []change
}

// change is one line of the list.
type change struct {
	place, row int
	number     string
	made       bool
	what       []string
	mends      []string
	confidence float64
}

func (r *repairs) add(f faulty) {
	found := f.found.GetRepair()
	if found == nil {
		return
	}
	made := found.GetConfidence() >= sureEnough && len(f.item.Problems) == 0
	if r.pumps == nil {
		r.pumps = map[int]*equipmentv1.Pump{}
	}
	if made {
		r.pumps[f.place] = found.GetPump()
	}
	r.list = append(r.list, change{f.place, f.item.Row, f.item.Message.GetItemNumber(), made, found.GetChanges(), found.GetMendedCodes(), found.GetConfidence()})
}

func changesPath(path string) string { return intake.CorrectedPath(path) + ".changes.csv" }

// absent refuses paths at which there is something.
func absent(paths ...string) error {
	for _, path := range paths {
		if _, err := os.Lstat(path); err == nil {
			return fmt.Errorf("%s is there already: move it away first, since nothing is written over", path)
		} else if !errors.Is(err, os.ErrNotExist) {
			return err
		}
	}
	return nil
}

// write writes the corrected copy and the list of changes beside the file.
func (j *job) write(path string, r *repairs) error {
	to := intake.CorrectedPath(path)
	if info, err := os.Stat(path); err == nil && info.IsDir() {
		return inputError{fmt.Errorf("--repair takes a file: name %s/pump_curves.csv", path)}
	}
	left, err := intake.WriteCorrected(path, to, j.Column, r.pumps)
	if err != nil {
		return inputError{err}
	}
	notHeld := map[int]bool{}
	for _, place := range left {
		notHeld[place] = true
	}
	list, err := os.OpenFile(changesPath(path), os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return inputError{err}
	}
	w := csv.NewWriter(list)
	w.Write([]string{"row", "place", "item_number", "made", "change", "mends", "confidence"})
	made := 0
	for _, c := range r.list {
		yes := "yes"
		switch {
		case notHeld[c.place]:
			yes = "no: the layout of the file cannot hold it"
		case !c.made:
			yes = "no: not sure enough"
		default:
			made++
		}
		w.Write([]string{strconv.Itoa(c.row), strconv.Itoa(c.place), harmless(c.number), yes, strings.Join(c.what, "; "), strings.Join(c.mends, " "), strconv.FormatFloat(c.confidence, 'f', 2, 64)})
	}
	w.Flush()
	if err := errors.Join(w.Error(), list.Close()); err != nil {
		return inputError{err}
	}
	fmt.Fprintf(j.Err, "%s: %d curves corrected in %s; every change is listed in %s\n", path, made, to, changesPath(path))
	return nil
}
