//go:build unix

// Package misbehave is a catalogue plugin that goes wrong in whatever way it is told to, for the tests of those who have to
// live with one. A test binary is the plugin: started again with the arguments that Args gives, it does what the mode says.
package misbehave

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"syscall"
)

const argument = "misbehave"

// Switch is the mode of a plugin that looks up its mode each time it is started: see Set.
const Switch = "switch"

// Args are the arguments that make the program a plugin of one mode. Each of its processes notes its ID in a folder.
func Args(mode, dir string) []string { return []string{argument, mode, dir} }

// Set makes a plugin of the mode Switch behave otherwise from its next start on.
func Set(dir, mode string) {
	at := filepath.Join(dir, "mode")
	must(os.WriteFile(at+".new", []byte(mode), 0o600))
	must(os.Rename(at+".new", at))
}

// RunIfAsked misbehaves when the program was started for that, and then returns true. Call it first in TestMain.
func RunIfAsked(args []string) bool {
	if len(args) != 4 || args[1] != argument {
		return false
	}
	mode, dir := args[2], args[3]
	notePID(dir, os.Getpid())
	if mode == Switch {
		set, err := os.ReadFile(filepath.Join(dir, "mode"))
		must(err)
		mode = string(set)
	}
	do, ok := modes[mode]
	if !ok {
		panic("no mode " + mode)
	}
	do(dir)
	return true
}

// notePID leaves a process ID where PIDs finds it.
func notePID(dir string, pid int) {
	must(os.WriteFile(filepath.Join(dir, strconv.Itoa(pid)+".pid"), nil, 0o600))
}

// PIDs are those of all processes that were started in a folder, ended or not.
func PIDs(dir string) []int {
	var pids []int
	files, _ := filepath.Glob(filepath.Join(dir, "*.pid"))
	for _, f := range files {
		pid, err := strconv.Atoi(strings.TrimSuffix(filepath.Base(f), ".pid"))
		must(err)
		pids = append(pids, pid)
	}
	return pids
}

// Alive says whether a process is there and does more than wait to be reaped by whoever has inherited it.
func Alive(pid int) bool {
	if runtime.GOOS == "linux" {
		stat, err := os.ReadFile(fmt.Sprintf("/proc/%d/stat", pid))
		_, state, _ := strings.Cut(string(stat), ") ")
		return err == nil && !strings.HasPrefix(state, "Z")
	}
	return syscall.Kill(pid, 0) == nil
}

// Living are the processes of a folder that have not ended.
func Living(dir string) []int {
	var living []int
	for _, pid := range PIDs(dir) {
		if Alive(pid) {
			living = append(living, pid)
		}
	}
	return living
}

// Self is the path of the running program.
func Self() string {
	path, err := os.Executable()
	must(err)
	return path
}

func must(err error) {
	if err != nil {
		panic(err)
	}
}
