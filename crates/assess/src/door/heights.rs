//! Heights of entry controls above the ground, by country, and what else is asked of a door panel there. Advice: the
//! local code and the project's access consultant prevail.

/// A published range of heights.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeightRange {
    /// Lowest, in metres.
    pub least_m: f64,
    /// Highest, in metres.
    pub most_m: f64,
    /// The publication.
    pub source: &'static str,
    /// What else it, or another publication of the country, asks of a door panel; empty where nothing is known here.
    pub also: &'static str,
}

/// Ranges by country (ISO 3166-1 alpha-2). The source says how its figures are known: as quoted by somebody
/// else, or from memory and not yet confirmed.
const RANGES: &[(&str, HeightRange)] = &[
    (
        "US",
        HeightRange {
            least_m: 0.38,
            most_m: 1.22,
            source: "2010 ADA Standards 308.2.1 and 308.3.1, unobstructed reach",
            also: "beyond an obstruction deeper than 0.51 m at most 1.12 m (308.2.2); with one hand, at most 22 N (309.4, from memory)",
        },
    ),
    (
        "GB",
        HeightRange {
            least_m: 0.90,
            most_m: 1.00,
            source: "Approved Document M volume 1 (England), M4(2) and M4(3) (from memory)",
            also: "at least 0.3 m from an external return corner (from memory); in buildings other than dwellings 0.75 m to 1.20 m (volume 2, 4.30, as quoted)",
        },
    ),
    (
        "IT",
        HeightRange {
            least_m: 1.10,
            most_m: 1.30,
            source: "DM 236/1989, entry phones, as quoted",
            also: "bell pushes 0.40 m to 1.40 m (the same, as quoted)",
        },
    ),
    ("DE", HeightRange { least_m: 0.85, most_m: 1.05, source: "DIN 18040-2 (from memory)", also: "" }),
    (
        "FR",
        HeightRange {
            least_m: 0.90,
            most_m: 1.30,
            source: "order of 24 December 2015 on dwellings, as quoted",
            also: "more than 0.40 m from an inner corner; signals by sound and by sight (the same, as quoted)",
        },
    ),
    (
        "CH",
        HeightRange {
            least_m: 0.80,
            most_m: 1.10,
            source: "SIA 500 section 9.6.1, as quoted",
            also: "not in a corner; a prompt to speak that can be seen (the same, as quoted)",
        },
    ),
    (
        "NO",
        HeightRange {
            least_m: 0.80,
            most_m: 1.10,
            source: "advice on TEK17 for dwellings, bell panels, as quoted",
            also: "usable from a wheelchair (TEK17 section 12-4, guidance)",
        },
    ),
    (
        "DK",
        HeightRange {
            least_m: 0.80,
            most_m: 1.10,
            source: "ISO 21542 (from memory)",
            also: "shows by sound and by sight that it is active and connected; the key 5 can be felt (BR18 section 160)",
        },
    ),
    (
        "ES",
        HeightRange {
            least_m: 0.80,
            most_m: 1.20,
            source: "CTE DB SUA, accessible controls (from memory)",
            also: "",
        },
    ),
    ("AU", HeightRange { least_m: 0.90, most_m: 1.25, source: "AS 1428.1, touch pads, as quoted", also: "" }),
];

/// The international standard, where the country has no entry above.
const ELSEWHERE: HeightRange =
    HeightRange { least_m: 0.80, most_m: 1.10, source: "ISO 21542 (from memory)", also: "" };

/// The range for a country; the international standard's without one.
pub fn height_range(country: Option<&str>) -> HeightRange {
    country
        .and_then(|country| RANGES.iter().find(|(code, _)| *code == country))
        .map_or(ELSEWHERE, |(_, range)| *range)
}

#[cfg(test)]
mod tests {
    use super::{RANGES, height_range};

    /// US Department of Justice, 2010 ADA Standards 308.2.1: 15 in to 48 in; 308.2.2: 44 in beyond 20 in of
    /// obstruction.
    #[test]
    fn reach_of_the_ada_standards_in_inches() {
        let range = height_range(Some("US"));
        assert!((range.least_m - 15.0 * 0.0254).abs() < 0.002);
        assert!((range.most_m - 48.0 * 0.0254).abs() < 0.002);
        assert!(range.also.contains("1.12 m") && (44.0 * 0.0254 - 1.12_f64).abs() < 0.003);
        assert!(range.also.contains("0.51 m") && (20.0 * 0.0254 - 0.51_f64).abs() < 0.003);
    }

    /// Ranges as others quote them. Italy: ministerial decree 236/1989 in handbooks, entry phone 110 to 130 cm. France: order
    /// of 24 December 2015 on an energy advice page, controls between visitors and residents 0.90 to 1.30 m.
    /// Switzerland: SIA 500 section 9.6.1 on the page of the country's centre for accessible building, 0.80 to 1.10 m. Norway: an advice
    /// page on universal design, bell panels 800 to 1100 mm. Australia: an access consultant on AS 1428.1, touch pads 900
    /// to 1250 mm.
    #[test]
    fn heights_as_quoted() {
        let range = |country| {
            let range = height_range(Some(country));
            assert!(range.source.ends_with("as quoted"), "{}", range.source);
            (range.least_m, range.most_m)
        };
        assert_eq!(range("IT"), (1.10, 1.30));
        assert_eq!(range("FR"), (0.90, 1.30));
        assert_eq!(range("CH"), (0.80, 1.10));
        assert_eq!(range("NO"), (0.800, 1.100));
        assert_eq!(range("AU"), (0.900, 1.250));
    }

    /// Every figure says how it is known: by the publication itself (ADA), as quoted, or from memory.
    #[test]
    fn every_source_says_how_it_is_known() {
        for (country, range) in RANGES {
            let is_told = range.source.contains("as quoted") || range.source.contains("from memory");
            assert!(is_told || *country == "US", "{country}: {}", range.source);
            assert!(range.least_m < range.most_m);
        }
    }

    #[test]
    fn other_countries_get_the_international_standard() {
        assert_eq!(height_range(None), height_range(Some("ZZ")));
        assert!(height_range(None).source.starts_with("ISO 21542"));
    }
}
