//! Line constants of common pairs, each value with where it comes from.
//!
//! Use them where nothing better is known about the cable in the wall. A finding that rests on an assumed
//! value has to say so: see [`Basis`].

use std::f64::consts::PI;

use super::line::{CableModel, LineLaw, PlainLine};
use super::value::{ValueError, positive};

/// Where a value comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Basis {
    /// Printed in a standard or handbook.
    Published,
    /// Worked out from published values or from dimensions.
    Derived,
    /// Common practice, no source.
    Assumed,
}

/// Where one of a cable's values comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Provenance {
    /// What the entry is about.
    pub quantity: &'static str,
    /// What kind of origin.
    pub basis: Basis,
    /// The source, or the reasoning.
    pub source: &'static str,
}

/// A cable of the catalogue.
#[derive(Clone, Debug, PartialEq)]
pub struct CatalogueLine {
    /// Short name.
    pub name: &'static str,
    /// What it is.
    pub description: &'static str,
    /// The law of one pair at 20 degrees Celsius.
    pub law: LineLaw,
    /// Where its values come from.
    pub provenance: &'static [Provenance],
}

/// Resistivity of standard annealed copper at 20 degrees Celsius, ohm metre: 0.017241 ohm mm2/m (IEC 60028).
const COPPER_OHM_M: f64 = 1.7241e-8;
const MU_0: f64 = 4e-7 * PI;
const EPSILON_0: f64 = 8.854_187_8e-12;

/// A pair of two equal round wires side by side in one insulation.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TwoWires {
    /// Diameter of the copper, metre.
    pub wire_diameter_m: f64,
    /// Distance between the centres, metre; above the diameter.
    pub spacing_m: f64,
    /// Relative permittivity that the field sees: between that of the insulation and that of air.
    pub relative_permittivity: f64,
    /// Loop resistance, ohm per metre.
    pub r_ohm_per_m: f64,
    /// Loss tangent of the insulation.
    pub loss_tangent: f64,
}

impl TwoWires {
    /// Line constants from the dimensions.
    ///
    /// ```text
    /// C = pi e0 er / acosh(D/d)       L = u0 / pi acosh(D/d)       (outer inductance; textbook formulas)
    /// ```
    ///
    /// The skin corner is where the high-frequency resistance of a round wire, `R0 d / (4 delta)` with
    /// `delta = sqrt(rho / (pi f u0))`, raised by the proximity factor `1 / sqrt(1 - (d/D)^2)`, equals
    /// `R0`: `fc = 16 rho (1 - (d/D)^2) / (pi u0 d^2)`.
    pub fn line(&self) -> Result<PlainLine, ValueError> {
        positive("wire_diameter_m", self.wire_diameter_m)?;
        positive("relative_permittivity", self.relative_permittivity)?;
        positive("r_ohm_per_m", self.r_ohm_per_m)?;
        let ratio = self.spacing_m / self.wire_diameter_m;
        if !(ratio > 1.0 && ratio <= 1e6) {
            let limit = "above the wire diameter, at most 1e6 times it";
            return Err(ValueError { quantity: "spacing_m", value: self.spacing_m, limit });
        }
        let spread = libm::acosh(ratio);
        let d2 = self.wire_diameter_m * self.wire_diameter_m;
        Ok(PlainLine {
            r_ohm_per_m: self.r_ohm_per_m,
            l_h_per_m: MU_0 / PI * spread,
            c_f_per_m: PI * EPSILON_0 * self.relative_permittivity / spread,
            g_s_per_m: 0.0,
            skin_corner_hz: Some(16.0 * COPPER_OHM_M * (1.0 - 1.0 / (ratio * ratio)) / (PI * MU_0 * d2)),
            loss_tangent: self.loss_tangent,
        })
    }
}

/// A telephone pair of solid copper with a round figure for capacitance, as cables of that kind have.
const fn telephone_pair(r_ohm_per_m: f64, skin_corner_hz: f64) -> LineLaw {
    LineLaw::Plain(PlainLine {
        r_ohm_per_m,
        l_h_per_m: 0.6e-6,
        c_f_per_m: 50e-12,
        g_s_per_m: 0.0,
        skin_corner_hz: Some(skin_corner_hz),
        loss_tangent: 0.002,
    })
}

const REFERENCE_MODEL: Provenance = Provenance {
    quantity: "R, L, C, G",
    basis: Basis::Published,
    source: "reference cable model as in ITU-T G.996.1 and ANSI T1.417 (standard named from memory)",
};

const TELEPHONE_PAIR: &[Provenance] = &[
    Provenance {
        quantity: "R",
        basis: Basis::Derived,
        source: "diameter and 0.017241 ohm mm2/m (IEC 60028), both conductors, 20 degrees Celsius",
    },
    Provenance {
        quantity: "C",
        basis: Basis::Published,
        source: "50 nF/km: UK supplier information note SIN 351, nominal local line",
    },
    Provenance { quantity: "L", basis: Basis::Assumed, source: "0.6 mH/km: 110 ohm at high frequency" },
    Provenance {
        quantity: "skin corner",
        basis: Basis::Derived,
        source: "round-wire skin depth, with the proximity factor for centres 1.8 diameters apart",
    },
    Provenance {
        quantity: "loss tangent",
        basis: Basis::Assumed,
        source: "0.002 for solid polyethylene and joints",
    },
];

const FLEX: &[Provenance] = &[
    Provenance {
        quantity: "R",
        basis: Basis::Published,
        source: "IEC 60228 class 5, plain copper, both conductors, 20 degrees Celsius",
    },
    Provenance {
        quantity: "L, C, skin corner",
        basis: Basis::Derived,
        source: "two-wire line from the diameters below; strands taken as one round wire",
    },
    Provenance {
        quantity: "insulation",
        basis: Basis::Assumed,
        source: "PVC cores touching, walls of 0.6 and 0.7 mm, effective permittivity 3.5, loss tangent 0.05",
    },
];

const BELL_WIRE: &[Provenance] = &[
    Provenance {
        quantity: "R",
        basis: Basis::Derived,
        source: "two solid wires of 0.6 mm and 0.017241 ohm mm2/m (IEC 60028), 20 degrees Celsius",
    },
    Provenance {
        quantity: "L, C, skin corner",
        basis: Basis::Derived,
        source: "two-wire line from the dimensions",
    },
    Provenance {
        quantity: "insulation",
        basis: Basis::Assumed,
        source: "twin flat PVC, centres 1.5 mm apart, effective permittivity 3, loss tangent 0.05",
    },
];

const CATEGORY_5E: &[Provenance] = &[
    Provenance {
        quantity: "R",
        basis: Basis::Published,
        source: "limit of 9.38 ohm per 100 m and conductor at 20 degrees Celsius, TIA-568-C.2 (from memory)",
    },
    Provenance {
        quantity: "C, L",
        basis: Basis::Derived,
        source: "nominal 100 ohm and the delay limit of 534 ns per 100 m, TIA-568-C.2 (from memory)",
    },
    Provenance {
        quantity: "skin corner, loss tangent",
        basis: Basis::Derived,
        source: "least squares on the insertion loss limits of TIA-568, 0.772 to 100 MHz",
    },
];

/// Skin corner and loss tangent of category 5e from its loss table; a test repeats the fit.
const CATEGORY_5E_FIT: (f64, f64) = (167_320.0, 1.362e-3);

/// Resistance of a solid pair in ohm per metre from the wire diameter in metre.
const fn solid_pair_ohm_per_m(diameter_m: f64) -> f64 {
    8.0 * COPPER_OHM_M / (PI * diameter_m * diameter_m)
}

/// Skin corner of a solid pair with centres 1.8 diameters apart.
const fn solid_pair_corner_hz(diameter_m: f64) -> f64 {
    16.0 * COPPER_OHM_M * (1.0 - 1.0 / (1.8 * 1.8)) / (PI * MU_0 * diameter_m * diameter_m)
}

/// A pair of touching cores: conductor area in mm2 and insulation wall in metre, as one round wire each.
fn flex(area_mm2: f64, wall_m: f64, r_ohm_per_m: f64) -> Option<LineLaw> {
    let wire_diameter_m = libm::sqrt(4.0 * area_mm2 / PI) * 1e-3;
    let wires = TwoWires {
        wire_diameter_m,
        spacing_m: wire_diameter_m + 2.0 * wall_m,
        relative_permittivity: 3.5,
        r_ohm_per_m,
        loss_tangent: 0.05,
    };
    wires.line().ok().map(LineLaw::Plain)
}

/// The reference model of a 24 AWG (0.51 mm) telephone pair.
pub const MODEL_24_AWG: CableModel = CableModel {
    r0_ohm_per_km: 174.558_88,
    a: 0.053_073_481,
    l0_h_per_km: 617.295_39e-6,
    l_infinite_h_per_km: 478.970_99e-6,
    b: 1.152_976_6,
    fm_hz: 553_760.0,
    c_infinite_f_per_km: 50e-9,
    c0_f_per_km: 0.0,
    ce: 0.0,
    g0_s_per_km: 234.874_76e-15,
    ge: 1.38,
};

/// The reference model of a 26 AWG (0.4 mm) telephone pair.
pub const MODEL_26_AWG: CableModel = CableModel {
    r0_ohm_per_km: 286.175_78,
    a: 0.147_696_20,
    l0_h_per_km: 675.368_88e-6,
    l_infinite_h_per_km: 488.951_86e-6,
    b: 0.929_307_28,
    fm_hz: 806_338.63,
    c_infinite_f_per_km: 49e-9,
    c0_f_per_km: 0.0,
    ce: 0.0,
    g0_s_per_km: 43e-9,
    ge: 0.70,
};

/// Every line of the catalogue.
pub fn lines() -> Vec<CatalogueLine> {
    let bell = TwoWires {
        wire_diameter_m: 0.6e-3,
        spacing_m: 1.5e-3,
        relative_permittivity: 3.0,
        r_ohm_per_m: solid_pair_ohm_per_m(0.6e-3),
        loss_tangent: 0.05,
    };
    let entry = |name, description, law: Option<LineLaw>, provenance| {
        law.map(|law| CatalogueLine { name, description, law, provenance })
    };
    let model = |model| Some(LineLaw::Model(model));
    [
        entry("bell-wire", "twin bell wire, solid 0.6 mm", bell.line().ok().map(LineLaw::Plain), BELL_WIRE),
        entry("telephone-0.4", "telephone pair 0.4 mm (26 AWG)", model(MODEL_26_AWG), &[REFERENCE_MODEL]),
        entry("telephone-0.5", "telephone pair 0.5 mm (24 AWG)", model(MODEL_24_AWG), &[REFERENCE_MODEL]),
        entry(
            "telephone-0.6",
            "telephone pair 0.6 mm",
            Some(telephone_pair(solid_pair_ohm_per_m(0.6e-3), solid_pair_corner_hz(0.6e-3))),
            TELEPHONE_PAIR,
        ),
        entry(
            "telephone-0.8",
            "telephone pair 0.8 mm",
            Some(telephone_pair(solid_pair_ohm_per_m(0.8e-3), solid_pair_corner_hz(0.8e-3))),
            TELEPHONE_PAIR,
        ),
        entry(
            "category-5e",
            "one pair of category 5e data cable",
            Some(LineLaw::Plain(PlainLine {
                r_ohm_per_m: 0.1876,
                l_h_per_m: 5.34e-7,
                c_f_per_m: 5.34e-11,
                g_s_per_m: 0.0,
                skin_corner_hz: Some(CATEGORY_5E_FIT.0),
                loss_tangent: CATEGORY_5E_FIT.1,
            })),
            CATEGORY_5E,
        ),
        entry("flex-1.0", "two-core flex 1.0 mm2", flex(1.0, 0.6e-3, 2.0 * 0.0195), FLEX),
        entry("flex-1.5", "two-core flex 1.5 mm2", flex(1.5, 0.7e-3, 2.0 * 0.0133), FLEX),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// The line called `name`.
pub fn line_named(name: &str) -> Option<CatalogueLine> {
    lines().into_iter().find(|line| line.name == name)
}
