//! Sizes of conductors in square millimetres and in American wire gauge.

use latchline_circuit::conductor::{awg_diameter_mm, nearest_awg};
use latchline_site::catalogue::Gauge;
use std::f64::consts::FRAC_PI_4;

/// The size of one conductor in both systems.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ConductorSize {
    /// Cross-section in square millimetres.
    pub area_mm2: f64,
    /// The American wire gauge that is nearest to it.
    pub nearest_awg: i32,
}

/// The size that a catalogue's gauge means; `None` where it gives a resistance only.
pub fn conductor_size(gauge: Gauge) -> Option<ConductorSize> {
    let of_diameter = |diameter_mm: f64| FRAC_PI_4 * diameter_mm * diameter_mm;
    let area_mm2 = match gauge {
        Gauge::CrossSection { area, .. } => area.as_square_millimetres(),
        Gauge::DiameterMm(diameter_mm) => of_diameter(diameter_mm),
        Gauge::Awg(number) => of_diameter(awg_diameter_mm(i32::from(number))),
        Gauge::Resistance(_) => return None,
    };
    Some(ConductorSize { area_mm2, nearest_awg: nearest_awg(area_mm2) })
}

#[cfg(test)]
mod tests {
    use super::*;
    use latchline_finding::quantity::Area;

    fn size(gauge: Gauge) -> ConductorSize {
        conductor_size(gauge).expect("a size")
    }

    /// ASTM B258: 24 AWG is 0.205 mm², 10 AWG 5.261 mm². Nearest to the IEC 60228 sizes 0.75 and 2.5 mm²:
    /// 18 (0.823) and 13 (2.62).
    #[test]
    fn wire_gauges() {
        let area = |number| size(Gauge::Awg(number)).area_mm2;
        assert!((area(24) - 0.2047).abs() < 5e-4 && (area(10) - 5.261).abs() < 5e-3);
        let nearest = |area_mm2| {
            let area = Area::from_square_millimetres(area_mm2);
            size(Gauge::CrossSection { area, class: 1 }).nearest_awg
        };
        assert_eq!([nearest(0.75), nearest(2.5), nearest(0.205)], [18, 13, 24]);
        assert_eq!(size(Gauge::Awg(18)).nearest_awg, 18);
    }
}
