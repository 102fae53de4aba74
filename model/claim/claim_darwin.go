package claim

// Can reports whether this system has records that a program can write by itself:
// here the bundle alone says what a program opens.
func Can() bool { return false }

// State of what this system has not. Errors: ErrCannot.
func (c Claim) State() (State, error) { return State{}, ErrCannot }

// Make writes nothing. Errors: ErrCannot.
func (c Claim) Make() error { return ErrCannot }

// TakeBack takes nothing away. Errors: ErrCannot.
func (c Claim) TakeBack() error { return ErrCannot }
