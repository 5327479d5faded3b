package commands_test

import "testing"

// What is on hand is reckoned first; what it does not give is said by the cube where no price
// list tells what there is. 6 slats of 930 × 90 on boards 27 thick are 0.01356 m³, with 40 %
// waste 0.018984.
func TestWhatMustBeBought(t *testing.T) {
	all := cutTalk(t, "do we have to buy any more", "got 2 sapele boards 2600 x 210 x 52",
		"add 2 stiles 1720 x 92 x 40 sapele and 6 slats 830 x 70 x 22 oak", "what do we still need to buy",
		"got 3 oak boards 2400 x 200 x 32", "have we got enough oak", "which timber must I purchase yet")
	hold(t, texts(all), "nothing is to be bought", "sapele 1 to 2", "Added 2 parts", "Buy about 0.019 m³ & oak 27 mm: 0.019 m³, boards at least 930 mm long and 90 mm wide",
		"oak 1 to 3", "Nothing: what is on hand is enough for 6 parts in oak", "Nothing: what is on hand is enough for 8 parts")
	if v := all[3].Values["volume_m3"].(float64); v < 0.01898 || v > 0.01899 {
		t.Errorf("volume %v m³, want 0.018984", v)
	}
}

func TestSpareTimberIsASetting(t *testing.T) {
	hold(t, talk(t, "allow 15 % spare timber", "what's the spare timber set to"), "15 %", "15 %")
}
