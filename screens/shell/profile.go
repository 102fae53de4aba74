package shell

func (s *Shell) openProfile() {}
func (s *Shell) saveProfile() {}
