package shell

func (s *Shell) openProfile() {}
func (s *Shell) saveProfile() {}

func (s *Shell) Take(string) {}
