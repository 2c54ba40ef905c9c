// Package atonce does pieces of work that do not touch each other at the same
// time, as many at once as there are processors.
package atonce

import (
	"fmt"
	"runtime"
	"runtime/debug"
	"sync"
)

// Do does all the work and ends when it is done. A panic in it is the caller's.
func Do(work ...func()) {
	Each(len(work), func(i int) { work[i]() })
}

// Each is Do of the work for each number from 0 up to n, begun in that order.
func Each(n int, work func(i int)) {
	panics := make([]any, n)
	do := func(i int) {
		defer func() {
			if r := recover(); r != nil {
				panics[i] = fmt.Sprintf("%v\n%s", r, debug.Stack())
			}
		}()
		work(i)
	}
	next := make(chan int)
	var all sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
		all.Go(func() {
			for i := range next {
				do(i)
			}
		})
	}
	for i := range n {
		next <- i
	}
	close(next)
	all.Wait()
	for _, p := range panics {
		if p != nil {
			panic(p)
		}
	}
}
