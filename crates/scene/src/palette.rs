//! Colours by what they mean, for light and for dark.
//!
//! Text has a contrast of at least 4.5 : 1 and lines of at least 3 : 1 against what is behind them
//! (WCAG 2.2, success criteria 1.4.3 and 1.4.11); the tests compute it. The four steps of the
//! voltage scale differ in lightness as well as in hue, stay apart for readers with any of the
//! three kinds of dichromacy, and are never the only mark: figures and the fill of the gauge say
//! the same.

/// A colour by what it means.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Ink {
    /// The sheet.
    Paper,
    /// Every second floor.
    Band,
    /// The inside of a symbol.
    Inside,
    /// Main lettering.
    Text,
    /// Secondary lettering.
    Quiet,
    /// Outlines of buildings, frames, axes.
    Outline,
    /// Grid lines of charts, which only guide the eye.
    Grid,
    /// Runs.
    Wire,
    /// Marks of trouble.
    Trouble,
    /// Marks of doubt.
    Doubt,
    /// Voltage scale: below the limit.
    ScaleBelow,
    /// Voltage scale: thin margin.
    ScaleThin,
    /// Voltage scale: fair margin.
    ScaleFair,
    /// Voltage scale: ample margin.
    ScaleAmple,
    /// The insulation of a conductor, always within an outline and beside its code.
    Conductor(Insulation),
}

/// Colours of insulation that have a letter code in IEC 60757.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Insulation {
    /// BK.
    Black,
    /// BN.
    Brown,
    /// RD.
    Red,
    /// OG.
    Orange,
    /// YE.
    Yellow,
    /// GN.
    Green,
    /// BU.
    Blue,
    /// VT.
    Violet,
    /// GY.
    Grey,
    /// WH.
    White,
    /// PK.
    Pink,
}

impl Insulation {
    /// Of a letter code.
    pub fn of_code(code: &str) -> Option<Insulation> {
        Some(match code {
            "BK" => Insulation::Black,
            "BN" => Insulation::Brown,
            "RD" => Insulation::Red,
            "OG" => Insulation::Orange,
            "YE" => Insulation::Yellow,
            "GN" => Insulation::Green,
            "BU" => Insulation::Blue,
            "VT" => Insulation::Violet,
            "GY" => Insulation::Grey,
            "WH" => Insulation::White,
            "PK" => Insulation::Pink,
            _ => return None,
        })
    }

    fn name(self) -> &'static str {
        match self {
            Insulation::Black => "conductor-black",
            Insulation::Brown => "conductor-brown",
            Insulation::Red => "conductor-red",
            Insulation::Orange => "conductor-orange",
            Insulation::Yellow => "conductor-yellow",
            Insulation::Green => "conductor-green",
            Insulation::Blue => "conductor-blue",
            Insulation::Violet => "conductor-violet",
            Insulation::Grey => "conductor-grey",
            Insulation::White => "conductor-white",
            Insulation::Pink => "conductor-pink",
        }
    }

    fn aci(self) -> u8 {
        match self {
            Insulation::Black => 250,
            Insulation::Brown => 34,
            Insulation::Red => 1,
            Insulation::Orange => 30,
            Insulation::Yellow => 2,
            Insulation::Green => 3,
            Insulation::Blue => 5,
            Insulation::Violet => 6,
            Insulation::Grey => 8,
            Insulation::White => 255,
            Insulation::Pink => 221,
        }
    }

    /// As it looks, on light ground and on dark.
    fn rgb(self) -> Rgb {
        match self {
            Insulation::Black => [0x1a, 0x1a, 0x1a],
            Insulation::Brown => [0x7a, 0x4a, 0x21],
            Insulation::Red => [0xd0, 0x21, 0x2b],
            Insulation::Orange => [0xf0, 0x86, 0x19],
            Insulation::Yellow => [0xf7, 0xd6, 0x2a],
            Insulation::Green => [0x2c, 0x9a, 0x49],
            Insulation::Blue => [0x1f, 0x62, 0xc0],
            Insulation::Violet => [0x7b, 0x3f, 0xa0],
            Insulation::Grey => [0x8c, 0x92, 0x99],
            Insulation::White => [0xff, 0xff, 0xff],
            Insulation::Pink => [0xf4, 0x9a, 0xb8],
        }
    }
}

/// Red, green and blue, 0 to 255.
pub type Rgb = [u8; 3];

/// A set of colours.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Palette {
    /// For paper and light pages.
    Light,
    /// For dark pages.
    Dark,
}

impl Ink {
    /// Every ink but those of conductors, in the order of declaration.
    pub const ALL: [Ink; 14] = [
        Ink::Paper,
        Ink::Band,
        Ink::Inside,
        Ink::Text,
        Ink::Quiet,
        Ink::Outline,
        Ink::Grid,
        Ink::Wire,
        Ink::Trouble,
        Ink::Doubt,
        Ink::ScaleBelow,
        Ink::ScaleThin,
        Ink::ScaleFair,
        Ink::ScaleAmple,
    ];

    /// Its name, used as class in SVG.
    pub fn name(self) -> &'static str {
        match self {
            Ink::Paper => "paper",
            Ink::Band => "band",
            Ink::Inside => "inside",
            Ink::Text => "text",
            Ink::Quiet => "quiet",
            Ink::Outline => "outline",
            Ink::Grid => "grid",
            Ink::Wire => "wire",
            Ink::Trouble => "trouble",
            Ink::Doubt => "doubt",
            Ink::ScaleBelow => "scale-below",
            Ink::ScaleThin => "scale-thin",
            Ink::ScaleFair => "scale-fair",
            Ink::ScaleAmple => "scale-ample",
            Ink::Conductor(colour) => colour.name(),
        }
    }

    /// Its AutoCAD colour index, of the standard palette of 255.
    pub fn aci(self) -> u8 {
        match self {
            Ink::Paper | Ink::Band | Ink::Inside => 255,
            Ink::Text | Ink::Wire => 7,
            Ink::Quiet => 8,
            Ink::Outline => 9,
            Ink::Grid => 254,
            Ink::Trouble | Ink::ScaleBelow => 14,
            Ink::Doubt | Ink::ScaleThin => 30,
            Ink::ScaleFair => 151,
            Ink::ScaleAmple => 176,
            Ink::Conductor(colour) => colour.aci(),
        }
    }
}

impl Palette {
    /// The colour of an ink.
    pub fn rgb(self, ink: Ink) -> Rgb {
        match (self, ink) {
            (_, Ink::Conductor(colour)) => colour.rgb(),
            (Palette::Light, Ink::Paper) => [0xff, 0xff, 0xff],
            (Palette::Light, Ink::Band) => [0xf5, 0xf6, 0xf7],
            (Palette::Light, Ink::Inside) => [0xff, 0xff, 0xff],
            (Palette::Light, Ink::Text) => [0x1a, 0x20, 0x27],
            (Palette::Light, Ink::Quiet) => [0x56, 0x60, 0x6b],
            (Palette::Light, Ink::Outline) => [0x7d, 0x87, 0x91],
            (Palette::Light, Ink::Grid) => [0xd9, 0xdd, 0xe1],
            (Palette::Light, Ink::Wire) => [0x2f, 0x3c, 0x4a],
            (Palette::Light, Ink::Trouble) => [0xa5, 0x1d, 0x12],
            (Palette::Light, Ink::Doubt) => [0x8a, 0x55, 0x00],
            (Palette::Light, Ink::ScaleBelow) => [0x8f, 0x12, 0x1a],
            (Palette::Light, Ink::ScaleThin) => [0xcf, 0x7a, 0x0a],
            (Palette::Light, Ink::ScaleFair) => [0x4c, 0x94, 0xc8],
            (Palette::Light, Ink::ScaleAmple) => [0x0b, 0x3a, 0x75],
            (Palette::Dark, Ink::Paper) => [0x12, 0x16, 0x1a],
            (Palette::Dark, Ink::Band) => [0x19, 0x1e, 0x24],
            (Palette::Dark, Ink::Inside) => [0x1e, 0x24, 0x2b],
            (Palette::Dark, Ink::Text) => [0xee, 0xf1, 0xf4],
            (Palette::Dark, Ink::Quiet) => [0xb2, 0xbb, 0xc4],
            (Palette::Dark, Ink::Outline) => [0x7c, 0x87, 0x92],
            (Palette::Dark, Ink::Grid) => [0x33, 0x3b, 0x44],
            (Palette::Dark, Ink::Wire) => [0xc9, 0xd3, 0xdd],
            (Palette::Dark, Ink::Trouble) => [0xff, 0x8f, 0x80],
            (Palette::Dark, Ink::Doubt) => [0xf0, 0xb2, 0x4a],
            (Palette::Dark, Ink::ScaleBelow) => [0xd9, 0x4a, 0x52],
            (Palette::Dark, Ink::ScaleThin) => [0xf0, 0xa8, 0x30],
            (Palette::Dark, Ink::ScaleFair) => [0x6e, 0x8f, 0xd8],
            (Palette::Dark, Ink::ScaleAmple) => [0xc4, 0xe6, 0xff],
        }
    }

    /// The colour of an ink as `#rrggbb`.
    pub fn hex(self, ink: Ink) -> String {
        let [red, green, blue] = self.rgb(ink);
        format!("#{red:02x}{green:02x}{blue:02x}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn linear(rgb: Rgb) -> [f64; 3] {
        rgb.map(|channel| {
            let value = f64::from(channel) / 255.0;
            if value <= 0.04045 { value / 12.92 } else { ((value + 0.055) / 1.055).powf(2.4) }
        })
    }

    /// Relative luminance and contrast as WCAG 2.2 defines them.
    fn contrast(a: Rgb, b: Rgb) -> f64 {
        let luminance = |rgb: Rgb| {
            let [r, g, b] = linear(rgb);
            0.2126 * r + 0.7152 * g + 0.0722 * b
        };
        let (high, low) = (luminance(a).max(luminance(b)), luminance(a).min(luminance(b)));
        (high + 0.05) / (low + 0.05)
    }

    #[test]
    fn contrast_of_published_pairs() {
        assert!((contrast([0, 0, 0], [255, 255, 255]) - 21.0).abs() < 1e-9, "WCAG 2.2: black on white is 21");
        // WCAG's own note: #767676 on white is the lightest grey that passes 4.5 : 1.
        assert!(contrast([0x76; 3], [255; 3]) >= 4.5 && contrast([0x77; 3], [255; 3]) < 4.5);
    }

    #[test]
    fn text_reads_and_lines_show_on_every_ground() {
        for palette in [Palette::Light, Palette::Dark] {
            for ground in [Ink::Paper, Ink::Band, Ink::Inside] {
                for text in [Ink::Text, Ink::Quiet, Ink::Trouble, Ink::Doubt] {
                    let found = contrast(palette.rgb(text), palette.rgb(ground));
                    assert!(found >= 4.5, "{palette:?} {text:?} on {ground:?}: {found:.2}");
                }
                for line in [
                    Ink::Outline,
                    Ink::Wire,
                    Ink::ScaleBelow,
                    Ink::ScaleThin,
                    Ink::ScaleFair,
                    Ink::ScaleAmple,
                ] {
                    let found = contrast(palette.rgb(line), palette.rgb(ground));
                    assert!(found >= 3.0, "{palette:?} {line:?} on {ground:?}: {found:.2}");
                }
            }
        }
    }

    /// Full dichromacy in linear RGB: Machado, Oliveira and Fernandes, "A physiologically-based
    /// model for simulation of color vision deficiency", IEEE TVCG 15 (2009), table for severity
    /// 1.0 (matrices from memory; each row must sum to 1, which the test checks).
    const DICHROMACIES: [[[f64; 3]; 3]; 3] = [
        [[0.152286, 1.052583, -0.204868], [0.114503, 0.786281, 0.099216], [-0.003882, -0.048116, 1.051998]],
        [[0.367322, 0.860646, -0.227968], [0.280085, 0.672501, 0.047413], [-0.011820, 0.042940, 0.968881]],
        [[1.255528, -0.076749, -0.178779], [-0.078411, 0.930809, 0.147602], [0.004733, 0.691367, 0.303900]],
    ];

    /// CIELAB of linear sRGB, D65 (IEC 61966-2-1 primaries).
    fn lab(rgb: [f64; 3]) -> [f64; 3] {
        let [r, g, b] = rgb.map(|value| value.clamp(0.0, 1.0));
        let x = (0.4124 * r + 0.3576 * g + 0.1805 * b) / 0.95047;
        let y = 0.2126 * r + 0.7152 * g + 0.0722 * b;
        let z = (0.0193 * r + 0.1192 * g + 0.9505 * b) / 1.08883;
        let f = |t: f64| if t > 216.0 / 24389.0 { t.cbrt() } else { (24389.0 / 27.0 * t + 16.0) / 116.0 };
        [116.0 * f(y) - 16.0, 500.0 * (f(x) - f(y)), 200.0 * (f(y) - f(z))]
    }

    #[test]
    fn steps_of_the_scale_stay_apart_for_every_kind_of_colour_vision() {
        let scale = [Ink::ScaleBelow, Ink::ScaleThin, Ink::ScaleFair, Ink::ScaleAmple];
        let identity = [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]];
        for palette in [Palette::Light, Palette::Dark] {
            for matrix in DICHROMACIES.iter().chain([&identity]) {
                for row in matrix {
                    assert!((row.iter().sum::<f64>() - 1.0).abs() < 1e-5);
                }
                let seen = scale.map(|ink| {
                    let colour = linear(palette.rgb(ink));
                    lab(matrix.map(|row| row.iter().zip(colour).map(|(m, c)| m * c).sum()))
                });
                for (i, a) in seen.iter().enumerate() {
                    for (j, b) in seen.iter().enumerate().skip(i + 1) {
                        let distance = a.iter().zip(b).map(|(a, b)| (a - b) * (a - b)).sum::<f64>().sqrt();
                        // 2.3 is a just noticeable difference in CIELAB (Mahy et al. 1994); ten of
                        // them keep small patches apart.
                        assert!(distance > 23.0, "{palette:?} {:?} {:?}: {distance:.1}", scale[i], scale[j]);
                    }
                }
            }
        }
    }
}
