//! Why a request is not answered as asked.

use axum::http::StatusCode;
use axum::response::{IntoResponse, Response};
use std::fmt;

/// Why not.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Refused {
    /// There is no such thing.
    NotFound,
    /// Asked in a way that nobody on a page of ours can: the reason is for who looks at the connection.
    Forbidden(&'static str),
    /// What was sent makes no sense, in words for the reader.
    Unfit(String),
    /// It does not go together with what others did, in words.
    Conflict(String),
    /// Too much at once.
    Busy(String),
    /// Our own mistake.
    Broken(&'static str),
}

impl fmt::Display for Refused {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Refused::NotFound => "There is no such thing.",
            Refused::Forbidden(why) | Refused::Broken(why) => why,
            Refused::Unfit(why) | Refused::Conflict(why) | Refused::Busy(why) => why,
        })
    }
}

impl IntoResponse for Refused {
    fn into_response(self) -> Response {
        let status = match self {
            Refused::NotFound => StatusCode::NOT_FOUND,
            Refused::Forbidden(_) => StatusCode::FORBIDDEN,
            Refused::Unfit(_) => StatusCode::UNPROCESSABLE_ENTITY,
            Refused::Conflict(_) => StatusCode::CONFLICT,
            Refused::Busy(_) => StatusCode::TOO_MANY_REQUESTS,
            Refused::Broken(_) => StatusCode::INTERNAL_SERVER_ERROR,
        };
        (status, self.to_string()).into_response()
    }
}
