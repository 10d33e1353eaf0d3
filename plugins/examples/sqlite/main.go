// A catalogue plugin over a SQLite database: what a merchant with a stock system of their own would write. Everything that has
// to do with being a plugin is the one call of sdk.Serve.
//
//	sqlite stock.db
package main

import (
	"fmt"
	"os"

	"example.com/pondwright/plugins/sdk"
)

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "give the database as the one argument")
		os.Exit(2)
	}
	sdk.Serve(stock{os.Args[1]})
}
