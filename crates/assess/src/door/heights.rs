//! Heights of entry controls above the ground, by country. Advice: the local code and the project's
//! access consultant prevail.

/// A published range of heights.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeightRange {
    /// Lowest, in metres.
    pub least_m: f64,
    /// Highest, in metres.
    pub most_m: f64,
    /// The publication.
    pub source: &'static str,
}

/// Ranges by country (ISO 3166-1 alpha-2). Those marked so are from memory, not yet confirmed against
/// the publication.
const RANGES: &[(&str, HeightRange)] = &[
    (
        "US",
        HeightRange {
            least_m: 0.38,
            most_m: 1.22,
            source: "2010 ADA Standards 308.2.1 and 308.3.1, unobstructed reach",
        },
    ),
    (
        "GB",
        HeightRange {
            least_m: 0.90,
            most_m: 1.00,
            source: "Approved Document M volume 1 (England), M4(2) and M4(3) (from memory)",
        },
    ),
    ("IT", HeightRange { least_m: 1.10, most_m: 1.30, source: "DM 236/1989, entry phones" }),
    ("DE", HeightRange { least_m: 0.85, most_m: 1.05, source: "DIN 18040-2 (from memory)" }),
    (
        "FR",
        HeightRange {
            least_m: 0.90,
            most_m: 1.30,
            source: "order of 24 December 2015 on dwellings (from memory)",
        },
    ),
    (
        "ES",
        HeightRange { least_m: 0.80, most_m: 1.20, source: "CTE DB SUA, accessible controls (from memory)" },
    ),
    ("AU", HeightRange { least_m: 0.90, most_m: 1.10, source: "AS 1428.1 (from memory)" }),
];

/// The international standard, where the country has no entry above.
const ELSEWHERE: HeightRange = HeightRange { least_m: 0.80, most_m: 1.10, source: "ISO 21542 (from memory)" };

/// The range for a country; the international standard's without one.
pub fn height_range(country: Option<&str>) -> HeightRange {
    country
        .and_then(|country| RANGES.iter().find(|(code, _)| *code == country))
        .map_or(ELSEWHERE, |(_, range)| *range)
}

#[cfg(test)]
mod tests {
    use super::height_range;

    /// US Department of Justice, 2010 ADA Standards 308.2.1: 15 in to 48 in.
    #[test]
    fn reach_of_the_ada_standards_in_inches() {
        let range = height_range(Some("US"));
        assert!((range.least_m - 15.0 * 0.0254).abs() < 0.002);
        assert!((range.most_m - 48.0 * 0.0254).abs() < 0.002);
    }

    /// Italian ministerial decree 236/1989 as quoted in handbooks: entry phone 110 to 130 cm.
    #[test]
    fn heights_of_the_italian_decree() {
        let range = height_range(Some("IT"));
        assert_eq!((range.least_m, range.most_m), (1.10, 1.30));
    }

    #[test]
    fn other_countries_get_the_international_standard() {
        assert_eq!(height_range(None), height_range(Some("ZZ")));
        assert!(height_range(None).source.starts_with("ISO 21542"));
    }
}
