package i18n

import (
	"slices"
	"sync"
	"sync/atomic"
)

// ear notes which messages are said; nil where nobody listens.
var ear atomic.Pointer[func(key string)]

// Listen has every message that is said from now on noted, and gives what tells the
// keys since it was last asked, in alphabetical order. It serves pictures that show
// a translator where a message stands; the last who listens hears.
func Listen() func() []string {
	var mutex sync.Mutex
	heard := map[string]bool{}
	note := func(key string) {
		mutex.Lock()
		defer mutex.Unlock()
		heard[key] = true
	}
	ear.Store(&note)
	return func() []string {
		mutex.Lock()
		defer mutex.Unlock()
		keys := make([]string, 0, len(heard))
		for k := range heard {
			keys = append(keys, k)
		}
		clear(heard)
		slices.Sort(keys)
		return keys
	}
}
