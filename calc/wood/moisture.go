package wood

import (
	"cmp"
	"fmt"

	"fettle/calc/bounds"
)

// EMC gives the moisture content in per cent that wood settles at in air of a temperature in
// °C and a relative humidity in per cent: the Hailwood–Horrobin equation of the USDA Wood
// Handbook (2010), equation 4-5,
//
//	EMC = 1800/W × (K h/(1 − K h) + (K1 K h + 2 K1 K2 K² h²)/(1 + K1 K h + K1 K2 K² h²))
//	W  = 349 + 1.29 T + 0.0135 T²
//	K  = 0.805 + 0.000736 T − 0.00000273 T²
//	K1 = 6.27 − 0.00938 T − 0.000303 T²
//	K2 = 1.91 + 0.0407 T − 0.000293 T²
//
// with constants from memory that agree with the handbook's Table 4-2 (seen) within 0.06.
// Species and the way the wood dried shift the true value by about a point (memory). The
// range is −1 to 93 °C and 5 to 95 % (what the table was compared over); it fails outside
// −10 to 95 °C and 1 to 98 %, and is an extension of the table between.
func EMC(tempC, humidityPct float64) (float64, error) {
	if err := cmp.Or(
		bounds.Between("the temperature", tempC, -10, 95, "°C"),
		bounds.Between("the humidity", humidityPct, 1, 98, "%"),
	); err != nil {
		return 0, err
	}
	t, h := tempC, humidityPct/100
	w := 349 + 1.29*t + 0.0135*t*t
	k := 0.805 + 0.000736*t - 0.00000273*t*t
	k1 := 6.27 - 0.00938*t - 0.000303*t*t
	k2 := 1.91 + 0.0407*t - 0.000293*t*t
	kh := k * h
	return 1800 / w * (kh/(1-kh) + (k1*kh+2*k1*k2*kh*kh)/(1+k1*kh+k1*k2*kh*kh)), nil
}

// HumidityFor gives the relative humidity in per cent at which wood settles at a moisture
// content in per cent, in air of a temperature in °C: EMC the other way round, to a
// thousandth. It fails where EMC does, and on moisture that no air between 1 and 98 % gives.
func HumidityFor(tempC, moisturePct float64) (float64, error) {
	const driest, dampest = 1.0, 98.0
	least, err := EMC(tempC, driest)
	if err != nil {
		return 0, err
	}
	most, err := EMC(tempC, dampest)
	if err != nil {
		return 0, err
	}
	if !between(moisturePct, least, most) {
		return 0, fmt.Errorf("no air brings wood to %s %%; at this temperature it goes from %s to %s %%",
			bounds.Number(moisturePct), bounds.Number(least), bounds.Number(most))
	}
	lo, hi := driest, dampest // EMC grows with humidity
	for hi-lo > 0.0005 {
		mid := (lo + hi) / 2
		if got, err := EMC(tempC, mid); err != nil {
			return 0, err
		} else if got < moisturePct {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2, nil
}
