package words

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"runtime"
	"syscall"

	"piecebook/ledger/plainfile"
)

// diskFull are the ways in which systems say that there is no more room.
var diskFull = []error{syscall.ENOSPC, syscall.EDQUOT, syscall.EFBIG}

// windowsDiskFull and windowsInUse are ERROR_DISK_FULL and
// ERROR_SHARING_VIOLATION (System Error Codes, Windows documentation).
const windowsDiskFull, windowsInUse = syscall.Errno(112), syscall.Errno(32)

// FileProblem says what a file error means for the owner, and what to do,
// without the system call's name.
func FileProblem(err error) string {
	name := fileOf(err)
	is := func(any ...error) bool {
		for _, one := range any {
			if errors.Is(err, one) {
				return true
			}
		}
		return false
	}
	windows := func(number syscall.Errno) bool { return runtime.GOOS == "windows" && errors.Is(err, number) }
	var big *plainfile.TooBigError
	switch {
	case is(diskFull...), windows(windowsDiskFull):
		return name + "The disk is full, so nothing was changed: what was there before stands as it was. Make room on it, " +
			"or put reports elsewhere with --out, and run it again."
	case is(syscall.EROFS):
		return name + "This disk can only be read, so nothing was changed. Put reports elsewhere with --out, or work on a " +
			"copy of the folder."
	case is(syscall.ENAMETOOLONG):
		return name + "This name is longer than the disk takes. Use a shorter one."
	case windows(windowsInUse):
		return name + "Another program has this file open, so nothing was changed. Close it there and run it again."
	case is(plainfile.ErrLink):
		return name + "This is a link that leads out of the folder, or to nothing. Put the file itself here, or take the " +
			"link out."
	case is(plainfile.ErrFolder, plainfile.ErrNoFile):
		return name + "A file is needed here, and something else has its name. Move that away and run it again."
	case errors.As(err, &big):
		return fmt.Sprintf("%s: This file is larger than %d MB, far above what piecebook writes. Move it away and run it "+
			"again.", big.Name, big.Limit>>20)
	case is(fs.ErrPermission):
		return name + "This may not be read or written by you, so nothing was changed. See to its permissions, or put " +
			"reports elsewhere with --out."
	case is(fs.ErrNotExist):
		return name + "This is not there. Check the name, or put it back."
	case is(fs.ErrInvalid):
		return name + "This name cannot be read. Use plain letters and digits."
	case name != "":
		return fmt.Sprintf("%s%v. Check that it is there and may be read and written.", name, causeOf(err))
	}
	return err.Error()
}

// fileOf is the file that an error is about, for the beginning of a sentence.
func fileOf(err error) string {
	var path *os.PathError
	var link *os.LinkError
	switch {
	case errors.As(err, &link):
		return link.New + ": "
	case errors.As(err, &path):
		return path.Path + ": "
	}
	return ""
}

// causeOf is what the system says, without its call's name.
func causeOf(err error) error {
	var path *os.PathError
	var link *os.LinkError
	switch {
	case errors.As(err, &link):
		return link.Err
	case errors.As(err, &path):
		return path.Err
	}
	return err
}
