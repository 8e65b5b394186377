//! QR codes (ISO/IEC 18004) as one path of squares.

use fast_qr::ECL;
use fast_qr::qr::{QRBuilder, QRCode, QRCodeError};

/// Light modules around a code that the standard asks for.
pub const QUIET_ZONE: usize = 4;
/// Bytes of a code of the largest version at level M, in byte mode (ISO/IEC 18004, table 7).
pub const MOST_BYTES: usize = 2331;

/// The dark modules of a code.
pub struct Code {
    /// Modules along one edge, without quiet zone.
    pub size: usize,
    code: QRCode,
}

impl Code {
    /// The code of a text, with error correction of level M.
    ///
    /// # Errors
    /// If the text does not fit into the largest code.
    pub fn new(text: &str) -> Result<Code, QRCodeError> {
        let code = QRBuilder::new(text).ecl(ECL::M).build()?;
        Ok(Code { size: code.size, code })
    }

    /// One SVG path of unit squares, rows of dark modules joined; the corner of the quiet zone is (0, 0).
    pub fn path(&self) -> String {
        let mut path = String::new();
        for row in 0..self.size {
            let modules = &self.code[row];
            let mut column = 0;
            while column < self.size {
                let run = (column..self.size).take_while(|at| modules[*at].value()).count();
                if run > 0 {
                    let (x, y) = (column + QUIET_ZONE, row + QUIET_ZONE);
                    path.push_str(&format!("M{x} {y}h{run}v1h-{run}z"));
                }
                column += run.max(1);
            }
        }
        path
    }
}
