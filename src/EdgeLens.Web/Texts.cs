using EdgeLens.Assessment.Measurements;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Review;

namespace EdgeLens.Web;

/// <summary>Every text of the web app, in one place for translation. Verdicts, reasons and refusals come from where they are found.</summary>
internal static class Texts
{
    public const string Program = "EdgeLens";
    public const string SkipToContent = "Skip to the content";
    public const string ToStart = "To the start";
    public const string GoBack = "Go back and try again.";
    public const string NoSuchPage = "There is no such page";
    public const string NotYours = "Your role may not do this";
    public const string NotYoursAdvice = "Ask somebody whose role it is, or have your role changed at the server.";
    public const string TooOften = "Too many requests from this device";
    public const string TooOftenAdvice = "Wait a minute and try again.";
    public const string TooLarge = "This upload is too large or cut off";
    public const string TooLargeAdvice = "Photographs of up to 40 MB are taken. Send the camera's own JPEG file.";
    public const string BrokeDown = "The program broke down";
    public const string BrokeDownAdvice = "This is a mistake in the program. The server's console says more; please report it.";
    public const string FormExpired = "This page was open too long";
    public const string FormExpiredAdvice = "Load the page again and repeat what you did. Nothing was entered.";
    public const string NobodyToSignIn = "Nobody could sign in: the book has no staff accounts. `edgelens book staff CODE --role lead-clinician` adds one.";
    public const string Serving = "Serving the book at {0} (Ctrl+C ends it).";

    public const string SignIn = "Sign in";
    public const string SignOut = "Sign out";
    public const string StaffCode = "Staff code";
    public const string Pin = "PIN";
    public const string WrongPin = "Code or PIN is wrong.";
    public const string Locked = "Too many wrong PINs for this code. Wait five minutes.";

    public const string Pair = "Pair this device";
    public const string PairWhy = "This device is not known yet. Its code appears on the server's console: go there, or have somebody read it to you.";
    public const string ShowCode = "Show a code on the server";
    public const string ShowNewCode = "Show a new code";
    public const string CodeIsShown = "The code is on the server's console. It is good for ten minutes.";
    public const string Code = "Code, 8 digits";
    public const string WrongCode = "The code is wrong or too old.";

    public const string Capture = "Photograph";
    public const string ChooseEnd = "Which instrument?";
    public const string Search = "Search by code or description";
    public const string Find = "Find";
    public const string Cassettes = "Cassettes";
    public const string AllCassettes = "All";
    public const string Cassette = "cassette";
    public const string NoCassette = "in no cassette";
    public const string NothingFound = "No instrument in use fits. Instruments are added at the server: `edgelens book add instrument`.";
    public const string SearchForMore = "Search to see others.";
    public const string End = "end";
    public const string TakePhotograph = "Take a photograph";
    public const string Measure = "Measure";
    public const string More = "Note, or first photograph of a new instrument";
    public const string Note = "Note";
    public const string AsNew = "It is new: later photographs are compared with this one";
    public const string OtherEnd = "Another instrument or end";
    public const string Refused = "Please take it again";
    public const string NoSuchEnd = "The book has no such working end";
    public const string NoPhotograph = "There was no photograph.";
    public const string NoPhotographAdvice = "Take one, then press Measure.";
    public const string QueueFull = "Too many photographs are waiting";
    public const string QueueFullAdvice = "Keep the photograph and send it again in a minute.";
    public const string NoSuchUpload = "This upload is not known";
    public const string NoSuchUploadAdvice = "It was sent more than an hour ago, or the server was started again since. Look at the instrument's inspections; if it is not there, send it again.";
    public const string Waiting = "One moment";
    public const string BeingMeasured = "Your photograph is being measured.";
    public const string Ahead = "Photographs before yours";
    public const string WaitingAdvice = "This page renews itself.";

    public const string WithTag = "Photograph with tag";
    public const string WhereTheTagLies = "Lay the tag flat on the card beside the window, its square in the picture. It says which working end this is.";
    public const string When = "When";
    public const string NotNoted = "Not noted";
    public const string View = "View";
    public const string ViewByPicture = "The picture tells";
    public const string SharpenedBy = "Sharpened by (staff code), if it was not you";
    public const string BesideTheOneFrom = "Stands beside the photograph before sharpening, of";
    public const string SharpsCaution = "Working ends are sharps, also dull ones. Clean and sterilise the instrument before you handle it; wear eye protection when you sharpen.";
    public const string WhichEnd = "Which working end is it?";
    public const string HeldWait = "Photographs that wait for your answer";
    public const string NothingHeld = "No photograph waits for an answer";
    public const string NothingHeldAdvice = "It was answered already, or thrown away. Look at the instrument's inspections.";
    public const string NothingIsLost = "The photograph is kept. It was taken on";
    public const string FileUnder = "It is";
    public const string FileAsSeen = "File it as the view that it shows";
    public const string ChooseOther = "Choose the working end";
    public const string TakeAnother = "Take another photograph";
    public const string ThrowAway = "Throw this photograph away";
    public const string FiledByTag = "Filed by its tag";
    public const string BeforeYouAct = "Before you act";
    public const string AfterSharpening = "Photograph again after sharpening";
    public const string NextInstrument = "Next instrument";
    public const string WhatSharpeningDid = "What the sharpening did";
    public const string Before = "Before";
    public const string After = "After";
    public const string NoBefore = "There is no photograph from before this sharpening: nothing can be compared.";
    public const string NotCompared = "The two photographs were not compared here: `edgelens sharpened` does it.";
    public const string Angles = "Angles";
    public const string FaceAngle = "Face to shank";
    public const string InternalLeft = "Internal, left";
    public const string InternalRight = "Internal, right";
    public const string WedgeAngle = "Wedge";
    public const string Today = "Today";
    public const string SinceNew = "Off from new";
    public const string NotKnown = "not known";
    public const string Expanded = "± is the expanded uncertainty, k = 2 (about 95 %).";

    public const string Offline = "No connection";
    public const string OfflineAdvice = "Photograph all the same: what you take waits on this phone and is sent when the connection is back.";
    public const string TryAgain = "Try the connection again";
    public const string OneWaits = "1 photograph waits on this phone";
    public const string ManyWait = "{0} photographs wait on this phone";
    public const string OtherStaff = "It is sent when {0} signs in.";
    public const string Dismiss = "I have read it";
    public const string Discard = "Delete from this phone";
    public const string DiscardSure = "This photograph has not been sent. Delete it?";
    public const string SendNow = "Send now";
    public const string SignInFirst = "Sign in again to send. Nothing is lost.";
    public const string Sending = "Sending";
    public const string SentLater = "Not sent yet. It is tried again when this page is opened.";
    public const string NoConnection = "No connection. It is sent when the connection is back.";
    public const string NotTaken = "The server does not take it now. It is kept.";
    public const string PhoneFull = "The phone has no room for another photograph";

    public const string Review = "Review";
    public const string NothingToReview = "Nothing waits for a decision.";
    public const string ToDecide = "Waiting for a decision";
    public const string Why = "Why";
    public const string PictureOf = "Photograph of";
    public const string PictureKey = "The heavier the line beside an edge, the more it has lost or reflects; the whole report says how much.";
    public const string NoPicture = "There is no picture of this inspection";
    public const string Demonstration = "Demonstration: rendered or invented, not photographed.";
    public const string WholeReport = "The whole report";
    public const string DriftAndTrend = "Drift and trend of this instrument";
    public const string PhotographAgain = "Photograph again";
    public const string Undecided = "Nobody has decided on this verdict yet.";
    public const string SignedOff = "Signed off";
    public const string SentBack = "Sent back";
    public const string YourDecision = "Your decision";
    public const string Comment = "Comment (needed to send back)";
    public const string SignOff = "Sign off";
    public const string SendBack = "Send back";
    public const string SayWhy = "Say in the comment why you send it back.";
    public const string DecidedAlready = "This inspection was decided on already. Nothing was entered.";

    public const string Compare = "Compare";
    public const string CompareDates = "Compare two dates";
    public const string Then = "Then";
    public const string New = "as new";
    public const string Reveal = "Move the border: then on its left, now on its right";
    public const string CompareKey = "Both photographs are turned and scaled so that the same steel lies at the same place, as well as the drift's own registration knows it. Toe to the right.";
    public const string NothingToCompare = "There are no two dates to compare: an as-new inspection with its photograph and a later one are needed.";
    public const string IfNotRegistered = "Where no picture shows, this photograph could not be laid over the as-new one.";
    public const string ToInspection = "To the inspection";

    public const string Practice = "Practice";
    public const string PracticeReport = "Practice review as a report";
    public const string WorkList = "Work list";
    public const string ToOrder = "To order";
    public const string PricesMissing = "without a price in the book";
    public const string Stones = "Stones";
    public const string By = "by";
    public const string Now = "now";

    public static string Of(InspectionMoment moment) => moment switch
    {
        InspectionMoment.AfterProcedure => "After a procedure",
        InspectionMoment.BeforeSharpening => "Before sharpening",
        _ => "After sharpening",
    };

    public static string Of(PhotographView view) => view switch
    {
        PhotographView.Toe => "Toe",
        PhotographView.Side => "Side",
        _ => "Face",
    };

    /// <summary>Heading of a part of the plan.</summary>
    public static string Of(PlanAction action) => action switch
    {
        PlanAction.Retire => "Retire",
        PlanAction.Resharpen => "Resharpen",
        PlanAction.TouchUp => "Touch up",
        PlanAction.Order => "Order",
        PlanAction.PhotographAgain => "Photograph again",
        PlanAction.Inspect => "Inspect",
        _ => "Keep",
    };
}
