namespace EdgeLens.Imaging.Calibration;

/// <summary>A phone with its loupe, as several card photographs show it.</summary>
public sealed record LensProfile(string Name, int WidthPx, int HeightPx);
