package line

func (s *search) prove() {}
