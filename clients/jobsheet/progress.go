package main

import "github.com/schollz/progressbar/v3"

// steps shows how far the work is, on a terminal; elsewhere it says nothing.
func steps(e env, n int) *progressbar.ProgressBar {
	if !e.Watched {
		return progressbar.DefaultSilent(int64(n))
	}
	return progressbar.NewOptions(n, progressbar.OptionSetWriter(e.Err), progressbar.OptionClearOnFinish(), progressbar.OptionSetWidth(24),
		progressbar.OptionShowCount())
}
