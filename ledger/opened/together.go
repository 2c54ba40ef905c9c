package opened

import (
	"fmt"
	"runtime/debug"
	"sync"
)

// together runs pieces of work that do not touch each other at the same time,
// and ends when all have. A panic in one is the caller's.
func together(work ...func()) {
	var all sync.WaitGroup
	panics := make([]any, len(work))
	for i, do := range work {
		all.Go(func() {
			defer func() {
				if r := recover(); r != nil {
					panics[i] = fmt.Sprintf("%v\n%s", r, debug.Stack())
				}
			}()
			do()
		})
	}
	all.Wait()
	for _, p := range panics {
		if p != nil {
			panic(p)
		}
	}
}
