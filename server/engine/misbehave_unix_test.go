//go:build unix

package engine_test

import (
	"context"
	"fmt"
	"log/slog"
	"os"
	"time"

	"example.com/pondwright/plugins/host"
	"example.com/pondwright/plugins/host/misbehave"
	"example.com/pondwright/server/engine"
	"example.com/pondwright/server/internal/catalogue"
)

// asEngine is the first argument of a test binary that is to be an engine with one plugin that runs and one that hangs.
const asEngine = "engine-to-be-killed"

// misbehaves is what the test binary does when it was started to be something else.
func misbehaves(args []string) bool {
	if misbehave.RunIfAsked(args) {
		return true
	}
	if len(args) == 3 && args[1] == asEngine {
		runEngine(args[2])
		return true
	}
	return false
}

func runEngine(dir string) {
	_, err := engine.New(context.Background(), engine.Config{
		Logger: slog.New(slog.DiscardHandler), Catalogues: []catalogue.Source{{Plugin: wrongPlugin("live", "live", dir)}, {Plugin: wrongPlugin("slow", "silent", dir)}},
	})
	fmt.Fprintln(os.Stderr, err)
	time.Sleep(time.Hour)
}

// wrongPlugin is the test binary as a plugin of a mode, with time limits that a busy machine does not run into by itself.
func wrongPlugin(name, mode, dir string) host.Plugin {
	return host.Plugin{
		Name: name, Path: misbehave.Self(), Args: misbehave.Args(mode, dir), StartTimeout: 20 * time.Second, CallTimeout: 20 * time.Second,
	}
}
