//go:build unix

// The command prepare builds the chat server that the tests run against, so that its
// minutes do not count against a test's time limit. From the project's folder:
//
//	go run ./bot/mattermost/mmtest/prepare
package main

import (
	"fmt"
	"os"

	"fettle/bot/mattermost/mmtest"
)

func main() {
	dir, err := mmtest.Build()
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	fmt.Println("The chat server for the tests is in", dir)
}
