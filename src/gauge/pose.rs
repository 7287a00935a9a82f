use kurbo::Point;
use nalgebra::{Matrix3, Vector3};

use super::camera::Camera;
use super::homography::Homography;

/// The focal length in pixels that a view of the sheet itself tells; `None` where it is so
/// square that it tells none.
///
/// *Shape:* `sheet` takes the sheet's mm to pixels counted from where the optical axis meets
/// the picture. *Source:* the sheet's axes stay square to each other and of one length, Z. Zhang,
/// A flexible new technique for camera calibration, 2000, section 3.1 (from memory); both
/// conditions together by least squares.
pub fn focal_told_by(sheet: &Homography) -> Option<f64> {
    let matrix = sheet.matrix() / sheet.matrix().norm();
    let (right, up) = (matrix.column(0), matrix.column(1));
    // Each condition: so much over the focal length squared, and so much more, is nothing.
    let square = (right.x * up.x + right.y * up.y, right.z * up.z);
    let alike = (
        right.x * right.x + right.y * right.y - up.x * up.x - up.y * up.y,
        right.z * right.z - up.z * up.z,
    );
    let against = square.0 * square.1 + alike.0 * alike.1;
    let weight = square.0 * square.0 + alike.0 * alike.0;
    let focal = (-weight / against).sqrt();
    (focal.is_finite() && focal > 0.0).then_some(focal)
}

/// The camera that sees the sheet so, its lens taken as straight; `None` where no camera does.
///
/// *Shape:* `sheet` as in [`focal_told_by`]; `centre` is where the optical axis meets the
/// picture, `focal` in pixels. *Source:* Z. Zhang, as above, section 3.1 and appendix C (from
/// memory): the nearest rotation to the two axes that are seen.
pub fn camera_that_sees(sheet: &Homography, centre: Point, focal: f64) -> Option<Camera> {
    let mut seen = *sheet.matrix();
    seen.row_mut(0).unscale_mut(focal);
    seen.row_mut(1).unscale_mut(focal);
    let length = (seen.column(0).norm() * seen.column(1).norm()).sqrt();
    // The sheet lies before the lens.
    let scale = length * if seen.column(2).z < 0.0 { -1.0 } else { 1.0 };
    let seen = seen / scale;
    if !seen.iter().all(|value| value.is_finite()) {
        return None;
    }
    let (right, up): (Vector3<f64>, Vector3<f64>) =
        (seen.column(0).into_owned(), seen.column(1).into_owned());
    let axes = Matrix3::from_columns(&[right, up, right.cross(&up)]);
    let found = axes.svd(true, true);
    let rotation = found.u? * found.v_t?;
    let camera = Camera {
        rotation,
        translation: seen.column(2).into_owned(),
        focal,
        centre,
        k1: 0.0,
    };
    // From below, a sheet would be seen through itself.
    (rotation.determinant() > 0.0 && camera.lens().z > 0.0).then_some(camera)
}
