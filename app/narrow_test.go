package main

import (
	"bytes"
	"fmt"
	"os"
	"strconv"
	"strings"

	"example.org/driploop/model/drill"
)

// The variables of a child that is the program itself, in a folder or under an
// account that may not do everything.
const (
	childArgs = "DRIPLOOP_TEST_ARGS" // its arguments, one a line
	childUser = "DRIPLOOP_TEST_USER" // the number of its account
)

// narrowChild is that child: it does what a command line asks for and says with which
// code it ended and what it said.
func narrowChild(args string) {
	if os.Getenv(childUser) == "" {
		_, widen, ok := drill.Narrow()
		if !ok {
			return
		}
		defer widen()
	} else if n, err := strconv.Atoi(os.Getenv(childUser)); err != nil || n != os.Getuid() && become(n) != nil {
		fmt.Println("cannot be another")
		return
	}
	var out, said bytes.Buffer
	code, _ := Run(strings.Split(args, "\n"), strings.NewReader(""), &out, &said, HostEnv())
	fmt.Printf("code %d %q %q\n", code, out.String(), said.String())
}
