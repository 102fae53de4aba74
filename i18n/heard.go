package i18n

import (
	"maps"
	"sync"
	"sync/atomic"
)

// ear notes which messages are said; nil where nobody listens.
var ear atomic.Pointer[func(key, text string)]

// Listen has every message that is said from now on noted, and gives what tells
// them since it was last asked: by key, as it was said last. It serves pictures that
// show a translator where a message stands; the last who listens hears.
func Listen() func() map[string]string {
	var mutex sync.Mutex
	heard := map[string]string{}
	note := func(key, text string) {
		mutex.Lock()
		defer mutex.Unlock()
		heard[key] = text
	}
	ear.Store(&note)
	return func() map[string]string {
		mutex.Lock()
		defer mutex.Unlock()
		out := maps.Clone(heard)
		clear(heard)
		return out
	}
}
