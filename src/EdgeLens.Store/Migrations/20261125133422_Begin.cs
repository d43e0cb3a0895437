using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace EdgeLens.Store.Migrations
{
    /// <inheritdoc />
    public partial class Begin : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "Cassettes",
                columns: table => new
                {
                    Id = table.Column<long>(nullable: false)
                        .Annotation("Sqlite:Autoincrement", true).Annotation("Npgsql:ValueGenerationStrategy", Npgsql.EntityFrameworkCore.PostgreSQL.Metadata.NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Code = table.Column<string>(nullable: false),
                    Name = table.Column<string>(nullable: false),
                    Site = table.Column<string>(nullable: true),
                    PracticeCode = table.Column<string>(nullable: false),
                    EnteredAt = table.Column<DateTimeOffset>(nullable: false),
                    By = table.Column<string>(nullable: false),
                    Corrects = table.Column<long>(nullable: true),
                    CorrectionReason = table.Column<string>(nullable: true),
                    IsWithdrawal = table.Column<bool>(nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Cassettes", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Cassettes_Cassettes_Corrects",
                        column: x => x.Corrects,
                        principalTable: "Cassettes",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Inspections",
                columns: table => new
                {
                    Id = table.Column<long>(nullable: false)
                        .Annotation("Sqlite:Autoincrement", true).Annotation("Npgsql:ValueGenerationStrategy", Npgsql.EntityFrameworkCore.PostgreSQL.Metadata.NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    IsAsNew = table.Column<bool>(nullable: false),
                    Note = table.Column<string>(nullable: true),
                    ProgramVersion = table.Column<string>(nullable: false),
                    PolicyName = table.Column<string>(nullable: false),
                    PolicyFingerprint = table.Column<string>(nullable: false),
                    Verdict = table.Column<string>(nullable: false),
                    Headline = table.Column<string>(nullable: false),
                    Reasons = table.Column<string>(nullable: false),
                    NextSteps = table.Column<string>(nullable: false),
                    Origin = table.Column<string>(nullable: false),
                    Remeasures = table.Column<long>(nullable: true),
                    PracticeCode = table.Column<string>(nullable: false),
                    EnteredAt = table.Column<DateTimeOffset>(nullable: false),
                    By = table.Column<string>(nullable: false),
                    Corrects = table.Column<long>(nullable: true),
                    CorrectionReason = table.Column<string>(nullable: true),
                    IsWithdrawal = table.Column<bool>(nullable: false),
                    Instrument = table.Column<string>(nullable: false),
                    End = table.Column<int>(nullable: false),
                    Day = table.Column<DateOnly>(nullable: false),
                    Time = table.Column<TimeOnly>(nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Inspections", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Inspections_Inspections_Corrects",
                        column: x => x.Corrects,
                        principalTable: "Inspections",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Inspections_Inspections_Remeasures",
                        column: x => x.Remeasures,
                        principalTable: "Inspections",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Instruments",
                columns: table => new
                {
                    Id = table.Column<long>(nullable: false)
                        .Annotation("Sqlite:Autoincrement", true).Annotation("Npgsql:ValueGenerationStrategy", Npgsql.EntityFrameworkCore.PostgreSQL.Metadata.NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Code = table.Column<string>(nullable: false),
                    Description = table.Column<string>(nullable: true),
                    PurchasedOn = table.Column<DateOnly>(nullable: true),
                    Price = table.Column<decimal>(nullable: true),
                    PracticeCode = table.Column<string>(nullable: false),
                    EnteredAt = table.Column<DateTimeOffset>(nullable: false),
                    By = table.Column<string>(nullable: false),
                    Corrects = table.Column<long>(nullable: true),
                    CorrectionReason = table.Column<string>(nullable: true),
                    IsWithdrawal = table.Column<bool>(nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Instruments", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Instruments_Instruments_Corrects",
                        column: x => x.Corrects,
                        principalTable: "Instruments",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "LensProfiles",
                columns: table => new
                {
                    Id = table.Column<long>(nullable: false)
                        .Annotation("Sqlite:Autoincrement", true).Annotation("Npgsql:ValueGenerationStrategy", Npgsql.EntityFrameworkCore.PostgreSQL.Metadata.NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Name = table.Column<string>(nullable: false),
                    Day = table.Column<DateOnly>(nullable: false),
                    Json = table.Column<string>(nullable: false),
                    PracticeCode = table.Column<string>(nullable: false),
                    EnteredAt = table.Column<DateTimeOffset>(nullable: false),
                    By = table.Column<string>(nullable: false),
                    Corrects = table.Column<long>(nullable: true),
                    CorrectionReason = table.Column<string>(nullable: true),
                    IsWithdrawal = table.Column<bool>(nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_LensProfiles", x => x.Id);
                    table.ForeignKey(
                        name: "FK_LensProfiles_LensProfiles_Corrects",
                        column: x => x.Corrects,
                        principalTable: "LensProfiles",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Placements",
                columns: table => new
                {
                    Id = table.Column<long>(nullable: false)
                        .Annotation("Sqlite:Autoincrement", true).Annotation("Npgsql:ValueGenerationStrategy", Npgsql.EntityFrameworkCore.PostgreSQL.Metadata.NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Day = table.Column<DateOnly>(nullable: false),
                    Cassette = table.Column<string>(nullable: true),
                    PracticeCode = table.Column<string>(nullable: false),
                    EnteredAt = table.Column<DateTimeOffset>(nullable: false),
                    By = table.Column<string>(nullable: false),
                    Corrects = table.Column<long>(nullable: true),
                    CorrectionReason = table.Column<string>(nullable: true),
                    IsWithdrawal = table.Column<bool>(nullable: false),
                    Instrument = table.Column<string>(nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Placements", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Placements_Placements_Corrects",
                        column: x => x.Corrects,
                        principalTable: "Placements",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Practices",
                columns: table => new
                {
                    Id = table.Column<long>(nullable: false)
                        .Annotation("Sqlite:Autoincrement", true).Annotation("Npgsql:ValueGenerationStrategy", Npgsql.EntityFrameworkCore.PostgreSQL.Metadata.NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Name = table.Column<string>(nullable: false),
                    Currency = table.Column<string>(nullable: false),
                    IsDemo = table.Column<bool>(nullable: false),
                    PracticeCode = table.Column<string>(nullable: false),
                    EnteredAt = table.Column<DateTimeOffset>(nullable: false),
                    By = table.Column<string>(nullable: false),
                    Corrects = table.Column<long>(nullable: true),
                    CorrectionReason = table.Column<string>(nullable: true),
                    IsWithdrawal = table.Column<bool>(nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Practices", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Practices_Practices_Corrects",
                        column: x => x.Corrects,
                        principalTable: "Practices",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Procedures",
                columns: table => new
                {
                    Id = table.Column<long>(nullable: false)
                        .Annotation("Sqlite:Autoincrement", true).Annotation("Npgsql:ValueGenerationStrategy", Npgsql.EntityFrameworkCore.PostgreSQL.Metadata.NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Day = table.Column<DateOnly>(nullable: false),
                    Cassette = table.Column<string>(nullable: true),
                    Instrument = table.Column<string>(nullable: true),
                    LightCases = table.Column<int>(nullable: false),
                    HeavyCases = table.Column<int>(nullable: false),
                    PracticeCode = table.Column<string>(nullable: false),
                    EnteredAt = table.Column<DateTimeOffset>(nullable: false),
                    By = table.Column<string>(nullable: false),
                    Corrects = table.Column<long>(nullable: true),
                    CorrectionReason = table.Column<string>(nullable: true),
                    IsWithdrawal = table.Column<bool>(nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Procedures", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Procedures_Procedures_Corrects",
                        column: x => x.Corrects,
                        principalTable: "Procedures",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "RodTests",
                columns: table => new
                {
                    Id = table.Column<long>(nullable: false)
                        .Annotation("Sqlite:Autoincrement", true).Annotation("Npgsql:ValueGenerationStrategy", Npgsql.EntityFrameworkCore.PostgreSQL.Metadata.NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Bites = table.Column<bool>(nullable: false),
                    Note = table.Column<string>(nullable: true),
                    PracticeCode = table.Column<string>(nullable: false),
                    EnteredAt = table.Column<DateTimeOffset>(nullable: false),
                    By = table.Column<string>(nullable: false),
                    Corrects = table.Column<long>(nullable: true),
                    CorrectionReason = table.Column<string>(nullable: true),
                    IsWithdrawal = table.Column<bool>(nullable: false),
                    Instrument = table.Column<string>(nullable: false),
                    End = table.Column<int>(nullable: false),
                    Day = table.Column<DateOnly>(nullable: false),
                    Time = table.Column<TimeOnly>(nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_RodTests", x => x.Id);
                    table.ForeignKey(
                        name: "FK_RodTests_RodTests_Corrects",
                        column: x => x.Corrects,
                        principalTable: "RodTests",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Sharpenings",
                columns: table => new
                {
                    Id = table.Column<long>(nullable: false)
                        .Annotation("Sqlite:Autoincrement", true).Annotation("Npgsql:ValueGenerationStrategy", Npgsql.EntityFrameworkCore.PostgreSQL.Metadata.NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    SharpenedBy = table.Column<string>(nullable: true),
                    Stone = table.Column<string>(nullable: true),
                    Zone = table.Column<int>(nullable: true),
                    Strokes = table.Column<int>(nullable: true),
                    Note = table.Column<string>(nullable: true),
                    PracticeCode = table.Column<string>(nullable: false),
                    EnteredAt = table.Column<DateTimeOffset>(nullable: false),
                    By = table.Column<string>(nullable: false),
                    Corrects = table.Column<long>(nullable: true),
                    CorrectionReason = table.Column<string>(nullable: true),
                    IsWithdrawal = table.Column<bool>(nullable: false),
                    Instrument = table.Column<string>(nullable: false),
                    End = table.Column<int>(nullable: false),
                    Day = table.Column<DateOnly>(nullable: false),
                    Time = table.Column<TimeOnly>(nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Sharpenings", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Sharpenings_Sharpenings_Corrects",
                        column: x => x.Corrects,
                        principalTable: "Sharpenings",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Sites",
                columns: table => new
                {
                    Id = table.Column<long>(nullable: false)
                        .Annotation("Sqlite:Autoincrement", true).Annotation("Npgsql:ValueGenerationStrategy", Npgsql.EntityFrameworkCore.PostgreSQL.Metadata.NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Code = table.Column<string>(nullable: false),
                    Name = table.Column<string>(nullable: false),
                    PracticeCode = table.Column<string>(nullable: false),
                    EnteredAt = table.Column<DateTimeOffset>(nullable: false),
                    By = table.Column<string>(nullable: false),
                    Corrects = table.Column<long>(nullable: true),
                    CorrectionReason = table.Column<string>(nullable: true),
                    IsWithdrawal = table.Column<bool>(nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Sites", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Sites_Sites_Corrects",
                        column: x => x.Corrects,
                        principalTable: "Sites",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "StateChanges",
                columns: table => new
                {
                    Id = table.Column<long>(nullable: false)
                        .Annotation("Sqlite:Autoincrement", true).Annotation("Npgsql:ValueGenerationStrategy", Npgsql.EntityFrameworkCore.PostgreSQL.Metadata.NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Day = table.Column<DateOnly>(nullable: false),
                    State = table.Column<string>(nullable: false),
                    Reason = table.Column<string>(nullable: true),
                    PracticeCode = table.Column<string>(nullable: false),
                    EnteredAt = table.Column<DateTimeOffset>(nullable: false),
                    By = table.Column<string>(nullable: false),
                    Corrects = table.Column<long>(nullable: true),
                    CorrectionReason = table.Column<string>(nullable: true),
                    IsWithdrawal = table.Column<bool>(nullable: false),
                    Instrument = table.Column<string>(nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_StateChanges", x => x.Id);
                    table.ForeignKey(
                        name: "FK_StateChanges_StateChanges_Corrects",
                        column: x => x.Corrects,
                        principalTable: "StateChanges",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "StoneCare",
                columns: table => new
                {
                    Id = table.Column<long>(nullable: false)
                        .Annotation("Sqlite:Autoincrement", true).Annotation("Npgsql:ValueGenerationStrategy", Npgsql.EntityFrameworkCore.PostgreSQL.Metadata.NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Stone = table.Column<string>(nullable: false),
                    Day = table.Column<DateOnly>(nullable: false),
                    WasWiped = table.Column<bool>(nullable: false),
                    IsFlat = table.Column<bool>(nullable: true),
                    PracticeCode = table.Column<string>(nullable: false),
                    EnteredAt = table.Column<DateTimeOffset>(nullable: false),
                    By = table.Column<string>(nullable: false),
                    Corrects = table.Column<long>(nullable: true),
                    CorrectionReason = table.Column<string>(nullable: true),
                    IsWithdrawal = table.Column<bool>(nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_StoneCare", x => x.Id);
                    table.ForeignKey(
                        name: "FK_StoneCare_StoneCare_Corrects",
                        column: x => x.Corrects,
                        principalTable: "StoneCare",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Stones",
                columns: table => new
                {
                    Id = table.Column<long>(nullable: false)
                        .Annotation("Sqlite:Autoincrement", true).Annotation("Npgsql:ValueGenerationStrategy", Npgsql.EntityFrameworkCore.PostgreSQL.Metadata.NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Code = table.Column<string>(nullable: false),
                    Description = table.Column<string>(nullable: false),
                    Zones = table.Column<int>(nullable: false),
                    PracticeCode = table.Column<string>(nullable: false),
                    EnteredAt = table.Column<DateTimeOffset>(nullable: false),
                    By = table.Column<string>(nullable: false),
                    Corrects = table.Column<long>(nullable: true),
                    CorrectionReason = table.Column<string>(nullable: true),
                    IsWithdrawal = table.Column<bool>(nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Stones", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Stones_Stones_Corrects",
                        column: x => x.Corrects,
                        principalTable: "Stones",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Verifications",
                columns: table => new
                {
                    Id = table.Column<long>(nullable: false)
                        .Annotation("Sqlite:Autoincrement", true).Annotation("Npgsql:ValueGenerationStrategy", Npgsql.EntityFrameworkCore.PostgreSQL.Metadata.NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Day = table.Column<DateOnly>(nullable: false),
                    LensProfile = table.Column<string>(nullable: true),
                    Subject = table.Column<string>(nullable: false),
                    KnownMm = table.Column<double>(nullable: false),
                    MeasuredMm = table.Column<double>(nullable: false),
                    StandardUncertaintyMm = table.Column<double>(nullable: false),
                    PracticeCode = table.Column<string>(nullable: false),
                    EnteredAt = table.Column<DateTimeOffset>(nullable: false),
                    By = table.Column<string>(nullable: false),
                    Corrects = table.Column<long>(nullable: true),
                    CorrectionReason = table.Column<string>(nullable: true),
                    IsWithdrawal = table.Column<bool>(nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Verifications", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Verifications_Verifications_Corrects",
                        column: x => x.Corrects,
                        principalTable: "Verifications",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "WorkingEnds",
                columns: table => new
                {
                    Id = table.Column<long>(nullable: false)
                        .Annotation("Sqlite:Autoincrement", true).Annotation("Npgsql:ValueGenerationStrategy", Npgsql.EntityFrameworkCore.PostgreSQL.Metadata.NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Family = table.Column<string>(nullable: false),
                    WorkingEdge = table.Column<string>(nullable: true),
                    MakerLengthMm = table.Column<double>(nullable: true),
                    MakerWidthMm = table.Column<double>(nullable: true),
                    MakerFaceAngleDeg = table.Column<double>(nullable: true),
                    MakerEdgeAngleDeg = table.Column<double>(nullable: true),
                    PracticeCode = table.Column<string>(nullable: false),
                    EnteredAt = table.Column<DateTimeOffset>(nullable: false),
                    By = table.Column<string>(nullable: false),
                    Corrects = table.Column<long>(nullable: true),
                    CorrectionReason = table.Column<string>(nullable: true),
                    IsWithdrawal = table.Column<bool>(nullable: false),
                    Instrument = table.Column<string>(nullable: false),
                    End = table.Column<int>(nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_WorkingEnds", x => x.Id);
                    table.ForeignKey(
                        name: "FK_WorkingEnds_WorkingEnds_Corrects",
                        column: x => x.Corrects,
                        principalTable: "WorkingEnds",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Documents",
                columns: table => new
                {
                    InspectionId = table.Column<long>(nullable: false),
                    JsonGzip = table.Column<byte[]>(nullable: false),
                    PictureJpeg = table.Column<byte[]>(nullable: false),
                    PictureMmPerPx = table.Column<double>(nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Documents", x => x.InspectionId);
                    table.ForeignKey(
                        name: "FK_Documents_Inspections_InspectionId",
                        column: x => x.InspectionId,
                        principalTable: "Inspections",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Figures",
                columns: table => new
                {
                    InspectionId = table.Column<long>(nullable: false),
                    Position = table.Column<int>(nullable: false),
                    Name = table.Column<string>(nullable: false),
                    Part = table.Column<string>(nullable: true),
                    StationMm = table.Column<double>(nullable: true),
                    Value = table.Column<double>(nullable: true),
                    StandardUncertainty = table.Column<double>(nullable: true),
                    SharedStandardUncertainty = table.Column<double>(nullable: true),
                    Unit = table.Column<string>(nullable: false),
                    WhyMissing = table.Column<string>(nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Figures", x => new { x.InspectionId, x.Position });
                    table.ForeignKey(
                        name: "FK_Figures_Inspections_InspectionId",
                        column: x => x.InspectionId,
                        principalTable: "Inspections",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Photographs",
                columns: table => new
                {
                    InspectionId = table.Column<long>(nullable: false),
                    Position = table.Column<int>(nullable: false),
                    Sha256 = table.Column<string>(nullable: false),
                    FileName = table.Column<string>(nullable: false),
                    View = table.Column<string>(nullable: false),
                    BarXMm = table.Column<double>(nullable: true),
                    BarYMm = table.Column<double>(nullable: true),
                    HeightMm = table.Column<double>(nullable: false),
                    HeightStandardUncertaintyMm = table.Column<double>(nullable: false),
                    LensProfile = table.Column<string>(nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Photographs", x => new { x.InspectionId, x.Position });
                    table.ForeignKey(
                        name: "FK_Photographs_Inspections_InspectionId",
                        column: x => x.InspectionId,
                        principalTable: "Inspections",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "SignOffs",
                columns: table => new
                {
                    Id = table.Column<long>(nullable: false)
                        .Annotation("Sqlite:Autoincrement", true).Annotation("Npgsql:ValueGenerationStrategy", Npgsql.EntityFrameworkCore.PostgreSQL.Metadata.NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    InspectionId = table.Column<long>(nullable: false),
                    Agrees = table.Column<bool>(nullable: true),
                    Comment = table.Column<string>(nullable: true),
                    PracticeCode = table.Column<string>(nullable: false),
                    EnteredAt = table.Column<DateTimeOffset>(nullable: false),
                    By = table.Column<string>(nullable: false),
                    Corrects = table.Column<long>(nullable: true),
                    CorrectionReason = table.Column<string>(nullable: true),
                    IsWithdrawal = table.Column<bool>(nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_SignOffs", x => x.Id);
                    table.ForeignKey(
                        name: "FK_SignOffs_Inspections_InspectionId",
                        column: x => x.InspectionId,
                        principalTable: "Inspections",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_SignOffs_SignOffs_Corrects",
                        column: x => x.Corrects,
                        principalTable: "SignOffs",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "IX_Cassettes_Corrects",
                table: "Cassettes",
                column: "Corrects",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Cassettes_PracticeCode",
                table: "Cassettes",
                column: "PracticeCode");

            migrationBuilder.CreateIndex(
                name: "IX_Inspections_Corrects",
                table: "Inspections",
                column: "Corrects",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Inspections_PracticeCode_Instrument",
                table: "Inspections",
                columns: new[] { "PracticeCode", "Instrument" });

            migrationBuilder.CreateIndex(
                name: "IX_Inspections_Remeasures",
                table: "Inspections",
                column: "Remeasures");

            migrationBuilder.CreateIndex(
                name: "IX_Instruments_Corrects",
                table: "Instruments",
                column: "Corrects",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Instruments_PracticeCode",
                table: "Instruments",
                column: "PracticeCode");

            migrationBuilder.CreateIndex(
                name: "IX_Instruments_PracticeCode_Code",
                table: "Instruments",
                columns: new[] { "PracticeCode", "Code" });

            migrationBuilder.CreateIndex(
                name: "IX_LensProfiles_Corrects",
                table: "LensProfiles",
                column: "Corrects",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_LensProfiles_PracticeCode",
                table: "LensProfiles",
                column: "PracticeCode");

            migrationBuilder.CreateIndex(
                name: "IX_Photographs_Sha256",
                table: "Photographs",
                column: "Sha256");

            migrationBuilder.CreateIndex(
                name: "IX_Placements_Corrects",
                table: "Placements",
                column: "Corrects",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Placements_PracticeCode_Instrument",
                table: "Placements",
                columns: new[] { "PracticeCode", "Instrument" });

            migrationBuilder.CreateIndex(
                name: "IX_Practices_Corrects",
                table: "Practices",
                column: "Corrects",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Practices_PracticeCode",
                table: "Practices",
                column: "PracticeCode");

            migrationBuilder.CreateIndex(
                name: "IX_Procedures_Corrects",
                table: "Procedures",
                column: "Corrects",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Procedures_PracticeCode",
                table: "Procedures",
                column: "PracticeCode");

            migrationBuilder.CreateIndex(
                name: "IX_RodTests_Corrects",
                table: "RodTests",
                column: "Corrects",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_RodTests_PracticeCode_Instrument",
                table: "RodTests",
                columns: new[] { "PracticeCode", "Instrument" });

            migrationBuilder.CreateIndex(
                name: "IX_Sharpenings_Corrects",
                table: "Sharpenings",
                column: "Corrects",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Sharpenings_PracticeCode_Instrument",
                table: "Sharpenings",
                columns: new[] { "PracticeCode", "Instrument" });

            migrationBuilder.CreateIndex(
                name: "IX_SignOffs_Corrects",
                table: "SignOffs",
                column: "Corrects",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_SignOffs_InspectionId",
                table: "SignOffs",
                column: "InspectionId");

            migrationBuilder.CreateIndex(
                name: "IX_SignOffs_PracticeCode",
                table: "SignOffs",
                column: "PracticeCode");

            migrationBuilder.CreateIndex(
                name: "IX_Sites_Corrects",
                table: "Sites",
                column: "Corrects",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Sites_PracticeCode",
                table: "Sites",
                column: "PracticeCode");

            migrationBuilder.CreateIndex(
                name: "IX_StateChanges_Corrects",
                table: "StateChanges",
                column: "Corrects",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_StateChanges_PracticeCode_Instrument",
                table: "StateChanges",
                columns: new[] { "PracticeCode", "Instrument" });

            migrationBuilder.CreateIndex(
                name: "IX_StoneCare_Corrects",
                table: "StoneCare",
                column: "Corrects",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_StoneCare_PracticeCode",
                table: "StoneCare",
                column: "PracticeCode");

            migrationBuilder.CreateIndex(
                name: "IX_Stones_Corrects",
                table: "Stones",
                column: "Corrects",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Stones_PracticeCode",
                table: "Stones",
                column: "PracticeCode");

            migrationBuilder.CreateIndex(
                name: "IX_Verifications_Corrects",
                table: "Verifications",
                column: "Corrects",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Verifications_PracticeCode",
                table: "Verifications",
                column: "PracticeCode");

            migrationBuilder.CreateIndex(
                name: "IX_WorkingEnds_Corrects",
                table: "WorkingEnds",
                column: "Corrects",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_WorkingEnds_PracticeCode_Instrument",
                table: "WorkingEnds",
                columns: new[] { "PracticeCode", "Instrument" });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "Cassettes");

            migrationBuilder.DropTable(
                name: "Documents");

            migrationBuilder.DropTable(
                name: "Figures");

            migrationBuilder.DropTable(
                name: "Instruments");

            migrationBuilder.DropTable(
                name: "LensProfiles");

            migrationBuilder.DropTable(
                name: "Photographs");

            migrationBuilder.DropTable(
                name: "Placements");

            migrationBuilder.DropTable(
                name: "Practices");

            migrationBuilder.DropTable(
                name: "Procedures");

            migrationBuilder.DropTable(
                name: "RodTests");

            migrationBuilder.DropTable(
                name: "Sharpenings");

            migrationBuilder.DropTable(
                name: "SignOffs");

            migrationBuilder.DropTable(
                name: "Sites");

            migrationBuilder.DropTable(
                name: "StateChanges");

            migrationBuilder.DropTable(
                name: "StoneCare");

            migrationBuilder.DropTable(
                name: "Stones");

            migrationBuilder.DropTable(
                name: "Verifications");

            migrationBuilder.DropTable(
                name: "WorkingEnds");

            migrationBuilder.DropTable(
                name: "Inspections");
        }
    }
}
