namespace EdgeLens.Imaging.Calibration;

/// <summary>Pinhole camera with one radial term: x_d = x (1 + K1 r²) on normalised coordinates, pixel = F x_d + C.</summary>
/// <param name="FocalLengthPx">Pixels.</param>
/// <param name="CentreXPx">Principal point, pixels; the centre of the first pixel is 0.</param>
/// <param name="CentreYPx">Principal point, pixels.</param>
/// <param name="K1">Radial distortion, no unit.</param>
public sealed record CameraModel(double FocalLengthPx, double CentreXPx, double CentreYPx, double K1);
