//! Conductors against published tables. The source stands beside each check.
#![allow(clippy::unwrap_used, reason = "a failure to build the case is a failed test")]

use latchline_circuit::conductor::{Coating, Conductor, ConductorClass, Material, Run, awg_diameter_mm};

fn within(found: f64, expected: f64, relative: f64) {
    assert!((found / expected - 1.0).abs() <= relative, "found {found}, expected {expected}");
}

fn copper(class: ConductorClass, area_mm2: f64) -> Conductor {
    Conductor::iec_60228(class, area_mm2, Coating::Plain).unwrap()
}

/// BS 7671 Appendix 4, two-core copper with 70 °C thermoplastic insulation, mV/A/m at the conductor's
/// operating temperature of 70 °C. The table is built on the 0.004/K of IEC 60228 (factor 1.200) and
/// prints two figures: allow 2 %.
#[test]
fn voltage_drop_table() {
    for (area_mm2, millivolts) in
        [(1.0, 44.0), (1.5, 29.0), (2.5, 18.0), (4.0, 11.0), (6.0, 7.3), (10.0, 4.4)]
    {
        let loop_ohm_per_m = copper(ConductorClass::Stranded, area_mm2).loop_ohm_per_m(70.0).unwrap();
        within(1e3 * loop_ohm_per_m, millivolts, 0.02);
    }
}

/// BS 7671 Table 4F3B, flexible cable at 60 °C, mV/A/m (from memory, not yet confirmed; 3 % above 2 R20 x
/// 1.16).
#[test]
fn voltage_drop_table_of_flexible_cable() {
    for (area_mm2, millivolts) in [(0.5, 93.0), (0.75, 62.0), (1.0, 46.0), (1.5, 32.0), (2.5, 19.0)] {
        let loop_ohm_per_m = copper(ConductorClass::Flexible, area_mm2).loop_ohm_per_m(60.0).unwrap();
        within(1e3 * loop_ohm_per_m, millivolts, 0.04);
    }
}

/// NEC Chapter 9 Table 8, direct-current resistance at 75 °C of uncoated copper, ohm per 1000 ft, solid
/// and stranded (a stranded wire is 2 % longer).
#[test]
fn gauge_table() {
    #[allow(clippy::approx_constant, reason = "3.14 ohm is an entry of the table")]
    for (gauge, solid, stranded) in
        [(18, 7.77, 7.95), (16, 4.89, 4.99), (14, 3.07, 3.14), (12, 1.93, 1.98), (10, 1.21, 1.24)]
    {
        let per_kft = Conductor::awg(gauge, Material::Copper).unwrap().ohm_per_m(75.0).unwrap() * 304.8;
        within(per_kft, solid, 0.005);
        within(1.02 * per_kft, stranded, 0.01);
    }
}

/// ASTM B258 diameters and resistances: 24 AWG is 84.2 ohm/km at 20 °C (table of line cables); 36 AWG is
/// 0.127 mm by definition, 0000 0.46 inch.
#[test]
fn gauge_geometry() {
    assert_eq!(awg_diameter_mm(36), 0.127);
    within(awg_diameter_mm(-3), 0.46 * 25.4, 1e-12);
    within(Conductor::awg(24, Material::Copper).unwrap().ohm_per_m(20.0).unwrap(), 0.0842, 5e-4);
}

/// Loop resistance of telephone pairs, ohm/km (table of UK local-line cables): 0.40 mm 275, 0.90 mm 55. The
/// table's 0.50 mm at 168 is really 24 AWG.
#[test]
fn telephone_pairs() {
    let loop_ohm_per_km =
        |d: f64| 1e3 * Conductor::solid(d, Material::Copper).unwrap().loop_ohm_per_m(20.0).unwrap();
    within(loop_ohm_per_km(0.40), 275.0, 0.005);
    within(loop_ohm_per_km(0.90), 55.0, 0.016);
    within(2e3 * Conductor::awg(24, Material::Copper).unwrap().ohm_per_m(20.0).unwrap(), 168.0, 0.005);
}

/// Temperature factors of copper: IEC 60228 annex, R(20)/R(t), rounded from 0.004/K; with 0.00393/K they
/// agree to 0.5 %.
#[test]
fn temperature_factors() {
    for (t, factor) in [
        (5.0, 1.064),
        (10.0, 1.042),
        (15.0, 1.020),
        (25.0, 0.980),
        (30.0, 0.962),
        (40.0, 0.926),
        (50.0, 0.893),
        (60.0, 0.862),
        (70.0, 0.833),
    ] {
        within(1.0 / Material::Copper.temperature_factor(t).unwrap(), factor, 0.005);
    }
    // IEC 60228 annex, exact form 254.5/(234.5 + t) (from memory, not yet confirmed).
    for t in [0.0, 40.0, 70.0, 90.0] {
        within(1.0 / Material::Copper.temperature_factor(t).unwrap(), 254.5 / (234.5 + t), 1e-4);
    }
    assert!(Material::Copper.temperature_factor(f64::NAN).is_err());
}

/// Copper-clad aluminium against copper: 1.59 and 1.55 by ASTM B566 (from memory, not yet confirmed), 1.54
/// and 1.50 by parallel conduction with aluminium at 61 %; aluminium 1.64 (installers' note).
#[test]
fn clad_and_plain_aluminium() {
    let ratio = |material: Material| {
        let of = |m| Conductor::solid(0.8, m).unwrap().ohm_per_m(20.0).unwrap();
        of(material) / of(Material::Copper)
    };
    within(ratio(Material::CopperCladAluminium10), 1.0 / (0.10 + 0.90 * 0.61), 0.04);
    within(ratio(Material::CopperCladAluminium15), 1.0 / (0.15 + 0.85 * 0.61), 0.04);
    within(ratio(Material::Aluminium), 1.64, 0.005);
    within(Material::CopperCladAluminium10.temperature_coefficient_per_k(), 0.0040, 0.02);
}

/// Licence-exam lesson on the NEC: 20 A over 100 ft of 12 AWG, both ways, drops 7.9 V (stranded, 75 °C);
/// calculator page at 20 °C: 6.4 V.
#[test]
fn drop_of_a_branch_circuit() {
    let run = |temperature_c| Run {
        length_m: 30.48,
        conductor: Conductor::awg(12, Material::Copper).unwrap(),
        pairs: 1,
        joints_ohm: 0.0,
        temperature_c,
    };
    within(20.0 * 1.02 * run(75.0).loop_resistance_ohm().unwrap(), 7.9, 0.01);
    within(20.0 * run(20.0).loop_resistance_ohm().unwrap(), 6.4, 0.01);
}

/// IEC 60228:2004: a class 1 conductor of limit resistance has at least nine tenths of its nominal area of
/// copper, and a metal-coated or flexible one may be worse but not better.
#[test]
fn the_table_is_consistent() {
    for area_mm2 in [0.5, 0.75, 1.0, 1.5, 2.5, 4.0, 6.0, 10.0] {
        let of = |class, coating| {
            1e3 * Conductor::iec_60228(class, area_mm2, coating).unwrap().ohm_per_m(20.0).unwrap()
        };
        let solid = of(ConductorClass::Solid, Coating::Plain);
        within(17.241 / solid, 0.95 * area_mm2, 0.03);
        assert_eq!(solid, of(ConductorClass::Stranded, Coating::Plain));
        assert!(of(ConductorClass::Flexible, Coating::Plain) > solid);
        assert!(of(ConductorClass::Solid, Coating::MetalCoated) > solid);
        let flexible = of(ConductorClass::Flexible, Coating::MetalCoated);
        assert!(flexible > of(ConductorClass::Flexible, Coating::Plain));
    }
}
