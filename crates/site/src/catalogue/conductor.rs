//! The conductors of a cable: from what the catalogue states to ohms per metre.

use super::{Cable, Gauge, Material};
use latchline_circuit::conductor::{self, Coating, Conductor, ConductorClass, ConductorError};

/// Resistance per metre of one conductor of a cable at a temperature, without tolerance, from the
/// tables and laws of [`latchline_circuit::conductor`].
///
/// A copper cross-section that IEC 60228 lists has the greatest resistance that its class allows; any
/// other size, and any other metal, follows from its geometry.
pub fn conductor_ohm_per_m(cable: &Cable, celsius: f64) -> f64 {
    conductor(cable)
        .and_then(|conductor| conductor.ohm_per_m(celsius))
        .expect("the reader of catalogues admits only sizes and temperatures that a conductor can have")
}

/// Resistance of a kilometre of loop of one pair at a temperature, without tolerance.
pub fn loop_ohm_per_km(cable: &Cable, celsius: f64) -> f64 {
    2e3 * conductor_ohm_per_m(cable, celsius)
}

/// Temperature at which data sheets and tables list resistances, in °C (IEC 60228).
const LISTED_CELSIUS: f64 = 20.0;

/// Loop resistance of one pair at the temperature of data sheets, in ohms per kilometre.
pub fn listed_loop_ohm_per_km(cable: &Cable) -> f64 {
    loop_ohm_per_km(cable, LISTED_CELSIUS)
}

/// One conductor of a cable.
///
/// # Errors
/// [`ConductorError`] for a size that no conductor has.
pub fn conductor(cable: &Cable) -> Result<Conductor, ConductorError> {
    let material = match cable.material.value {
        Material::Copper => conductor::Material::Copper,
        Material::CladAluminium10 => conductor::Material::CopperCladAluminium10,
        Material::CladAluminium15 => conductor::Material::CopperCladAluminium15,
        Material::Aluminium => conductor::Material::Aluminium,
    };
    match cable.gauge.value {
        Gauge::CrossSection { area, class } => {
            let area_mm2 = area.as_square_millimetres();
            let class = match class {
                1 => ConductorClass::Solid,
                5 => ConductorClass::Flexible,
                _ => ConductorClass::Stranded,
            };
            let coating = if cable.coated.value { Coating::MetalCoated } else { Coating::Plain };
            match material {
                conductor::Material::Copper => Conductor::iec_60228(class, area_mm2, coating)
                    .or_else(|_| Conductor::geometric_area(area_mm2, material)),
                _ => Conductor::geometric_area(area_mm2, material),
            }
        }
        Gauge::Awg(gauge) => Conductor::awg(i32::from(gauge), material),
        Gauge::DiameterMm(diameter_mm) => Conductor::solid(diameter_mm, material),
        Gauge::Resistance(value) => Conductor::measured(value.as_ohms_per_metre() * 1e3, 20.0, material),
    }
}

/// How long a run is that has this loop resistance, in metres: `L = (R - J) p / (2 r)`, where `J` are its terminals and joints, `p` its
/// pairs in parallel and `r` one conductor at the temperature of the measurement. `None` where the joints alone have that much.
///
/// The inverse of the law by which runs without measurement get their resistance.
pub fn length_of_loop_m(
    cable: &Cable,
    celsius: f64,
    loop_ohm: f64,
    joints_ohm: f64,
    pairs: u32,
) -> Option<f64> {
    let pairs = f64::from(pairs.max(1));
    let length_m = (loop_ohm - joints_ohm) * pairs / (2.0 * conductor_ohm_per_m(cable, celsius));
    (length_m.is_finite() && length_m > 0.0).then_some(length_m)
}
