//! Voltages that may be touched: where basic protection (insulation, or an enclosure that keeps fingers off) is
//! generally not needed for SELV and PELV circuits, and where extra-low voltage ends.
//!
//! Direct current: 60 V where it is dry, 30 V otherwise, extra-low up to 120 V, all ripple-free. Alternating
//! current, root mean square: 25 V, 12 V and 50 V. (BS 7671 regulation 414.4.5, IEC 60364-4-41; International
//! Electrotechnical Vocabulary, SELV, after IEC 61558-1:2005 3.7.16.) Ripple-free is direct current with at most
//! 10 % of ripple, root mean square; more of it is held to the limits of alternating current here, which is the safe
//! side.

/// Most ripple, root mean square over the direct voltage, of what counts as ripple-free.
pub const RIPPLE_FREE: f64 = 0.10;

/// The limits of one kind of current, in volts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TouchLimits {
    /// Where it is not dry.
    pub wet_v: f64,
    /// Where it is dry.
    pub dry_v: f64,
    /// Upper end of extra-low voltage.
    pub extra_low_v: f64,
}

/// Ripple-free direct current.
pub const DIRECT: TouchLimits = TouchLimits { wet_v: 30.0, dry_v: 60.0, extra_low_v: 120.0 };
/// Alternating current, root mean square.
pub const ALTERNATING: TouchLimits = TouchLimits { wet_v: 12.0, dry_v: 25.0, extra_low_v: 50.0 };

/// The limits for direct current with this ripple.
pub fn with_ripple(ripple: f64) -> TouchLimits {
    // A datasheet's 10 % is at the limit, not beyond.
    if ripple > RIPPLE_FREE + 1e-9 { ALTERNATING } else { DIRECT }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// International Electrotechnical Vocabulary, SELV (from IEC 61558-1:2005 3.7.16): 50 V AC or 120 V ripple-free DC;
    /// BS 7671 414.4.5: 25 V AC or 60 V DC dry, 12 V AC or 30 V DC otherwise.
    #[test]
    fn limits_as_published() {
        assert_eq!((ALTERNATING.extra_low_v, DIRECT.extra_low_v), (50.0, 120.0));
        assert_eq!((ALTERNATING.dry_v, DIRECT.dry_v), (25.0, 60.0));
        assert_eq!((ALTERNATING.wet_v, DIRECT.wet_v), (12.0, 30.0));
    }

    /// The same entry allows peaks of 140 V at 120 V and of 70 V at 60 V for ripple-free direct current: what sinusoidal
    /// ripple of 10 % adds stays below, and 12 % would not.
    #[test]
    fn ripple_free_keeps_the_published_peaks() {
        let peak_v = |direct_v: f64, ripple: f64| direct_v * (1.0 + ripple * 2.0_f64.sqrt());
        assert!(peak_v(120.0, RIPPLE_FREE) <= 140.0 && peak_v(60.0, RIPPLE_FREE) <= 70.0);
        assert!(peak_v(120.0, 0.12) > 140.0 && peak_v(60.0, 0.12) > 70.0);
        assert_eq!([with_ripple(0.0), with_ripple(0.10)], [DIRECT, DIRECT]);
        assert_eq!([with_ripple(0.101), with_ripple(0.48)], [ALTERNATING, ALTERNATING]);
    }
}
